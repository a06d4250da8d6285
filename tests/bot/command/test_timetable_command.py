"""The timetable of each start event, for people and for scripts."""

import json
from typing import Any

import pytest
from freezegun import freeze_time

from tests.bot.command.conftest import Yardbell

KEYS = ["check", "not_before", "best", "by", "rest", "why"]

KINDS = {
    "cell": "cell_placed",
    "virgin": "virgin_placed",
    "caged": "caged_queen_placed",
    "own": "raising_own",
    "graft": "grafted",
    "made_up": "made_up",
}


def rows(yardbell: Yardbell, *words: str) -> list[dict[str, Any]]:
    found = json.loads(yardbell.good("timetable", *words, "--on", "2027-05-12", "--json"))
    assert isinstance(found, list)
    return found


@pytest.mark.parametrize("kind", [*KINDS, *KINDS.values()])
def test_json_has_the_promised_keys_in_order_of_the_first_day(
    yardbell: Yardbell, kind: str
) -> None:
    found = rows(yardbell, kind)
    assert found
    assert all(list(row) == KEYS for row in found)
    assert [row["not_before"] for row in found] == sorted(row["not_before"] for row in found)


@pytest.mark.parametrize("kind", KINDS)
def test_only_a_rest_has_a_span_and_no_best_day(yardbell: Yardbell, kind: str) -> None:
    for row in rows(yardbell, kind):
        if row["check"] == "rest":
            assert (row["rest"], row["best"]) == (
                {"from": row["not_before"], "until": row["by"]},
                None,
            )
        else:
            assert row["rest"] is None
            assert row["not_before"] <= row["best"]


@pytest.mark.parametrize(("word", "name"), KINDS.items())
def test_the_short_word_means_the_name_in_the_log(yardbell: Yardbell, word: str, name: str) -> None:
    assert rows(yardbell, word) == rows(yardbell, name)


@pytest.mark.parametrize("kind", KINDS)
def test_the_table_has_a_line_for_each_check(yardbell: Yardbell, kind: str) -> None:
    lines = yardbell.good("timetable", kind, "--on", "2027-05-12").splitlines()
    found = rows(yardbell, kind)
    assert len(lines) == len(found)
    for line, row in zip(lines, found, strict=True):
        assert line.endswith(f" - {row['why']}")


# A queen is out 16 days after the egg, an egg hatches in 3 days, and larvae are grafted on their
# first day: so a cell of 10 days from the graft is one of 14 from the egg. Common practice, no
# source.
def test_a_ten_day_cell_is_fourteen_days_from_the_egg(yardbell: Yardbell) -> None:
    assert rows(yardbell, "cell", "--age", "10") == rows(yardbell, "cell", "--age", "14e")


def test_an_older_cell_is_out_earlier(yardbell: Yardbell) -> None:
    def out(age: str) -> str:
        found = rows(yardbell, "cell", "--age", age)
        return next(str(row["best"]) for row in found if row["check"] == "emergence")

    assert out("10") < out("9") < out("8")


def test_an_older_virgin_lays_earlier(yardbell: Yardbell) -> None:
    def eggs(age: str) -> str:
        found = rows(yardbell, "virgin", "--age", age)
        return next(str(row["best"]) for row in found if row["check"] == "laying")

    assert eggs("4") < eggs("0")


def test_without_a_day_it_starts_today(yardbell: Yardbell) -> None:
    with freeze_time("2027-05-12 12:00"):
        today = json.loads(yardbell.good("timetable", "cell", "--json"))
    assert today == rows(yardbell, "cell")


def test_it_needs_no_settings_and_leaves_no_file(
    yardbell: Yardbell, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_DATA_HOME", "/dev/null/nowhere")
    yardbell.good("timetable", "cell")
    assert list(yardbell.folder.iterdir()) == []


@pytest.mark.parametrize(
    ("words", "named"),
    [
        (["queen"], "'queen'"),
        (["eggs"], "'eggs'"),
        ([], "KIND"),
        (["cell", "--on", "12 May"], "write it as 2027-05-12"),
        (["cell", "--on", "9999-12-31"], "too far"),
        (["cell", "--on", "0001-01-01"], "too far"),
        (["cell", "--age", "ten"], "'ten'"),
        (["cell", "--age", ""], "''"),
        (["cell", "--age", "-1"], "'-1'"),
        (["cell", "--age", "400"], "14 days from the graft"),
        (["cell", "--age", "19e"], "18 days from the egg"),
        (["virgin", "--age", "14e"], "'14e'"),
        (["virgin", "--age", "nan"], "0 to 40 days"),
        (["virgin", "--age", "inf"], "0 to 40 days"),
        (["virgin", "--age", "-1"], "0 to 40 days"),
        (["own", "--age", "3"], "raising_own"),
        (["cell", "--colour"], "--colour"),
    ],
)
def test_what_cannot_be_used_is_named_in_one_line(
    yardbell: Yardbell, words: list[str], named: str
) -> None:
    assert named in yardbell("timetable", *words).complaint
