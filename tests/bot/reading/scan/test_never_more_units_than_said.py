"""A number, a position or an "or" never widens a report to units that were not meant."""

import pytest

from bot.reading.reader import read
from scheduling.entry_kinds import EntryKind
from tests.bot.reading.yards_for_reading import at, for_each, kinds


@pytest.mark.parametrize(
    "text", ["4-B eggs", "4.b eggs", "4/b eggs", "box 4 unit b eggs", "4beggs"]
)
def test_a_letter_joined_to_its_box_is_one_unit(text: str) -> None:
    assert kinds(text) == for_each("4b", EntryKind.EGGS)


@pytest.mark.parametrize("text", ["all three of box 4 have eggs", "every one of box 4 has eggs"])
def test_a_box_counted_in_full_is_all_of_it(text: str) -> None:
    assert kinds(text) == for_each("4a 4b 4c", EntryKind.EGGS)


@pytest.mark.parametrize(
    "text",
    [
        "all three of box 5 have eggs",
        "both queens in box 4 are released",
        "2 of 3 laying in box 4",
        "two of box 4 have eggs",
        "4b and 4c one has eggs",
        "eggs in 4b or 4c",
        "4b eggs 5-10",
        "4b eggs 32 may",
    ],
)
def test_a_part_of_several_is_asked_about(text: str) -> None:
    reading = read(text, at())
    assert reading.findings == ()
    assert reading.questions


@pytest.mark.parametrize(
    ("text", "units"),
    [
        ("neither 4a nor 4b has eggs", "4a 4b"),
        ("none of box 4 has eggs", "4a 4b 4c"),
        ("not one of 4 is laying", "4a 4b 4c"),
    ],
)
def test_a_denial_before_its_units_denies_for_each(text: str, units: str) -> None:
    assert kinds(text) == for_each(units, EntryKind.NO_EGGS)


def test_cells_in_several_units_that_hatched_were_not_put_in() -> None:
    text = "The cells in 1a, 1b and 1c have all hatched"
    assert kinds(text) == for_each("1a 1b 1c", EntryKind.EMERGED)


def test_units_listed_after_their_opened_box_are_all_read() -> None:
    text = "I checked box 1: 1a and 1b have hatched but 1c is a dud"
    wanted = for_each("1a 1b", EntryKind.EMERGED) | for_each("1c", EntryKind.CELL_FAILED)
    assert kinds(text) == wanted


@pytest.mark.parametrize("slip", ["sed", "ded", "ied", "ued"])
def test_three_letters_near_two_findings_are_not_put_right(slip: str) -> None:
    assert kinds(f"4b {slip}") == {}
