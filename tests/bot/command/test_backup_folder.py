"""Backups by day in a folder: the newest are kept all, of the older ones a few."""

from datetime import date, timedelta

import pytest
from freezegun import freeze_time
from hypothesis import given
from hypothesis import strategies as st

import bot.command.backups  # noqa: F401 - what is loaded while time stands still keeps its dates
from bot.command.backup_folder import DAYS, MONTHS, WEEKS, days_kept, file_of
from tests.bot.command.conftest import Yardbell

DAY = date(2027, 5, 12)
days = st.sets(st.dates(date(2026, 1, 1), date(2030, 12, 31)), max_size=200)


def test_of_three_years_of_days_these_are_kept() -> None:
    every_day = {DAY - timedelta(days=ago) for ago in range(3 * 365)}

    assert sorted(days_kept(every_day), reverse=True) == [
        *(date(2027, 5, day) for day in (12, 11, 10, 9, 8, 7, 6)),
        # The newest of this week and of this month is today's; Sundays end the weeks before.
        *(date(2027, 5, 2), date(2027, 4, 30), date(2027, 4, 25), date(2027, 4, 18)),
        *(date(2027, 3, 31), date(2027, 2, 28), date(2027, 1, 31), date(2026, 12, 31)),
        *(date(2026, 11, 30), date(2026, 10, 31), date(2026, 9, 30), date(2026, 8, 31)),
        *(date(2026, 7, 31), date(2026, 6, 30)),
    ]


@given(days)
def test_the_newest_is_kept_and_few_are(found: set[date]) -> None:
    left = days_kept(found)

    assert left <= found
    assert len(left) <= DAYS + WEEKS + MONTHS
    assert not found or max(found) in left
    assert days_kept(left) == left


@given(days, st.dates(date(2031, 1, 1), date(2031, 12, 31)))
def test_one_more_day_takes_few_away(found: set[date], next_day: date) -> None:
    left = days_kept(found)

    assert len(left - days_kept(left | {next_day})) <= 3


def test_a_folder_gets_a_backup_a_day_and_old_ones_go(river: Yardbell) -> None:
    folder = river.folder / "backups"
    folder.mkdir()
    (folder / "yardbell-notes.txt").write_text("mine")
    for ago in range(20):
        with freeze_time(DAY - timedelta(days=19 - ago)):
            river.good("backup", str(folder))
    with freeze_time(DAY):
        said = river.good("backup", "--thin", str(folder)).splitlines()

    left = {file.name for file in folder.iterdir()}
    expected = days_kept({DAY - timedelta(days=ago) for ago in range(20)})
    assert said[-1] == f"old backups taken away: {20 - len(expected)}"
    assert left == {file_of(folder, day).name for day in expected} | {"yardbell-notes.txt"}


@pytest.mark.parametrize("there", [True, False])
def test_nothing_is_taken_away_beside_a_file(river: Yardbell, there: bool) -> None:
    file = river.folder / "one.backup"
    if there:
        river.good("backup", str(file))
    assert "is no folder" in river("backup", "--thin", str(file)).complaint
    assert file.exists() is there
