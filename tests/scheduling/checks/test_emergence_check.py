"""The look whether the queen is out, and the rest before it.

A ripe ten-day cell put in on the first emerges on the third (12 days after the graft; Cushman,
"Grafting timetable", http://dave-cushman.net/bee/graftingtimesheet.html).
"""

from datetime import date

import pytest

from scheduling.check_kinds import CheckKind
from scheduling.checks.calendar import timetable
from scheduling.checks.check import Cause
from scheduling.entry_kinds import EntryKind
from scheduling.values import CellAge, PutOff
from tests.scheduling.story import Story, may


def test_a_ripe_cell_is_looked_at_on_the_day_after_it_should_be_out() -> None:
    story = Story().on(1, EntryKind.CELL_PLACED)
    assert story.days(CheckKind.EMERGENCE) == (3, 4, 5)
    assert story.check(CheckKind.EMERGENCE).why.about == may(3)
    assert story.rests()[0] == (2, 2)


@pytest.mark.parametrize(
    ("age", "window", "rest"),
    [
        (CellAge(days_since_graft=9), (4, 5, 6), (2, 3)),
        (CellAge(days_since_graft=10), (3, 4, 5), (2, 2)),
        (CellAge(days_since_egg=14), (3, 4, 5), (2, 2)),
        (CellAge(days_since_graft=3), (10, 11, 12), (2, 9)),
    ],
)
def test_the_cells_age_counts(
    age: CellAge, window: tuple[int, int, int], rest: tuple[int, int]
) -> None:
    story = Story().on(1, EntryKind.CELL_PLACED, age)
    assert story.days(CheckKind.EMERGENCE) == window
    assert story.rests()[0] == rest


def test_a_cell_about_to_open_is_never_looked_at_on_the_day_it_went_in() -> None:
    story = Story().on(1, EntryKind.CELL_PLACED, CellAge(days_since_graft=12))
    assert story.days(CheckKind.EMERGENCE) == (2, 2, 3)


def test_once_she_is_out_there_is_no_more_to_look_for() -> None:
    story = Story().on(1, EntryKind.CELL_PLACED).on(4, EntryKind.EMERGED)
    assert CheckKind.EMERGENCE not in story.kinds()


def test_a_cell_still_sealed_is_looked_at_again_on_the_next_day() -> None:
    story = Story().on(1, EntryKind.CELL_PLACED).on(4, EntryKind.NOT_EMERGED)
    assert story.days(CheckKind.EMERGENCE) == (5, 5, 6)
    assert story.check(CheckKind.EMERGENCE).why.cause is Cause.STILL_SEALED
    assert story.check(CheckKind.EMERGENCE).why.seen == may(4)


def test_a_look_before_its_time_leaves_the_dates_as_they_were() -> None:
    story = Story().on(1, EntryKind.CELL_PLACED).on(2, EntryKind.NOT_EMERGED)
    assert story.days(CheckKind.EMERGENCE) == (3, 4, 5)


def test_a_late_queen_starts_to_lay_later() -> None:
    on_time = Story().on(1, EntryKind.CELL_PLACED)
    late = Story().on(1, EntryKind.CELL_PLACED).on(4, EntryKind.NOT_EMERGED)
    assert on_time.days(CheckKind.LAYING) == (13, 15, 17)
    assert late.days(CheckKind.LAYING) == (15, 17, 19)


def test_a_cell_sealed_two_days_past_any_queens_time_is_replaced() -> None:
    story = Story().on(1, EntryKind.CELL_PLACED).on(6, EntryKind.NOT_EMERGED)
    assert story.kinds() == {CheckKind.RECELL, CheckKind.FEED}
    assert story.check(CheckKind.RECELL).why.cause is Cause.CELL_WAS_BAD


def test_a_cell_found_in_a_unit_of_unknown_history() -> None:
    story = Story().on(8, EntryKind.NOT_EMERGED)
    assert story.days(CheckKind.EMERGENCE) == (9, 9, 10)


def test_put_off_to_a_later_day() -> None:
    story = Story().on(1, EntryKind.CELL_PLACED)
    story.on(3, EntryKind.PUT_OFF, PutOff(may(6), CheckKind.EMERGENCE))
    assert story.days(CheckKind.EMERGENCE) == (6, 6, 6)
    assert story.check(CheckKind.EMERGENCE).why.cause is Cause.PUT_OFF
    assert story.rests() == [(2, 2), (7, 12)]


def test_over_the_end_of_a_leap_february() -> None:
    checks = timetable(EntryKind.CELL_PLACED, date(2028, 2, 27))
    assert checks[1].best == date(2028, 3, 1)
