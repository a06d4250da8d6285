from collections.abc import Sequence
from datetime import UTC, date, datetime, timedelta

import pytest

from bot.channels.sms.segments import is_gsm7
from bot.wording.story import failing_list, queens_list, story
from scheduling.checks.calendar import Calendar, work_out
from scheduling.entries import Entry
from scheduling.entry_facts import ENTRY_FACTS
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName
from scheduling.values import CellAge, Value
from scheduling.visits import failing as to_mend
from scheduling.visits import ready_queens

PLACED = date(2026, 5, 1)
UNIT = Place("River", UnitName(4, "b"))
Told = tuple[int, EntryKind, Value | None]

CELL: Told = (0, EntryKind.CELL_PLACED, CellAge(days_since_graft=10))


def calendar(told: Sequence[Told], place: Place = UNIT) -> Calendar:
    """The calendar of one unit, each finding told on a day counted from the placing of a cell."""
    return work_out(
        Entry(
            uid=f"{place} {number}",
            place=place,
            kind=kind,
            value=value,
            on=PLACED + timedelta(days=days),
            recorded_at=datetime(2026, 5, 1, 12, tzinfo=UTC) + timedelta(days=days, hours=number),
            person="Pat",
        )
        for number, (days, kind, value) in enumerate(told)
    )


def story_on(told: Sequence[Told], days: int) -> list[str]:
    worked = calendar(told)
    today = PLACED + timedelta(days=days)
    return story(worked.queen(UNIT), worked.checks[UNIT], today).split("\n")


def test_a_cell_just_placed() -> None:
    now, last, comes = story_on([CELL], 0)
    assert now == "River 4b: cell, day 0 since Fri 1 May"
    assert last == "Last: cell in, 10 days from graft, today, Pat"
    assert comes.startswith("Next: see if out ")
    assert comes.endswith("(should be out Sun)")


def test_a_virgin_is_left_alone_until_the_look_for_eggs() -> None:
    now, last, comes = story_on([CELL, (3, EntryKind.EMERGED, None)], 5)
    assert now == "River 4b: virgin, day 3 since Sun 3 May"
    assert last == "Last: out, Mon, Pat"
    assert comes.startswith("Next: leave alone to ")
    assert "look for eggs" in comes


FED: Told = (14, EntryKind.FED, None)
LAYING: list[Told] = [CELL, (3, EntryKind.EMERGED, None), FED, (15, EntryKind.EGGS, None)]


def test_a_laying_queen() -> None:
    now, last, comes = story_on(LAYING, 16)
    assert now == "River 4b: laying, day 1 since Sat 16 May"
    assert last == "Last: eggs, yesterday, Pat"
    assert comes.startswith("Next: look for sealed brood ")
    assert comes.endswith("(eggs seen yesterday)")


def test_a_dead_unit_has_nothing_due() -> None:
    now, _, comes = story_on([CELL, (2, EntryKind.DEAD, None)], 9)
    assert now.startswith("River 4b: ended, day 7 since Sun 3 May")
    assert comes == "Next: nothing due"


@pytest.mark.parametrize("kind", [kind for kind in EntryKind if kind is not EntryKind.STRIKE])
def test_the_story_is_three_lines_after_whatever_was_noted(kind: EntryKind) -> None:
    if ENTRY_FACTS[kind].value_needed:
        return
    lines = story_on([CELL, (12, kind, None)], 13)
    assert len(lines) == 3
    assert all(is_gsm7(line) and "None" not in line for line in lines)


def test_a_dud_cell_is_on_the_failing_list() -> None:
    worked = calendar([CELL, (3, EntryKind.CELL_FAILED, None)])
    today = PLACED + timedelta(days=3)
    lines = failing_list(to_mend(worked, today), worked.units, today).text.split("\n")
    assert lines[0] == "Failing, River:"
    assert lines[1].startswith("4b no queen, no cell since today: give a cell by ")


def test_nothing_fails_and_no_queen_is_ready() -> None:
    assert failing_list([], {}, PLACED).text == "No unit is failing."
    assert queens_list([], PLACED).text == "No queen ready to take yet."


def test_queens_laying_long_enough_are_listed_with_their_days() -> None:
    worked = calendar([*LAYING, (25, EntryKind.SEALED_BROOD, None)])
    today = PLACED + timedelta(days=40)
    assert queens_list(ready_queens(worked, today), today).text == (
        "Ready to take, longest laying first, River:\n4b laying 25 days, since Sat 16 May"
    )
