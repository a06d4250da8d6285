"""One unit that cannot be worked out: all others are, and the owner hears of it once a day."""

from datetime import date, timedelta

import pytest
from sqlalchemy import Engine, select

from bot.delivery.message_tables import InboxRow
from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import reading, writing
from scheduling.values import CellAge
from tests.bot.conversation.lines import DAY, Lines, crew_of_ada

COMMANDS = (
    *("due", "tomorrow", "week", "queens", "failing", "more", "1b", "2", "river", "yards", "crew"),
    *("help", "2a eggs", "undo", "all good in 2", "rained today", "days sat sun", "look at 80%"),
    *("river dearth", "taking river", "oops 2a no eggs", "plan 9 queens by 9 july", "1a", "quiet"),
)


@pytest.fixture
def lines(engine: Engine) -> Lines:
    """Ada's crew with cells in six units, and an entry in 1a that no calendar can bear."""
    lines = crew_of_ada(Lines(engine))
    lines.say("Ada", "10 day cells in 1-2")
    person = lines.person("telegram", "Ada")
    assert person is not None
    for number, (on, kind) in enumerate(
        ((date.max, EntryKind.EGGS), (date.min, EntryKind.CELL_PLACED))
    ):
        place = Place("River", UnitName(1, "a"))
        age = CellAge(10) if kind is EntryKind.CELL_PLACED else None
        bad = Entry(f"bad{number}", place, kind, age, on, lines.now, "Ada")
        with writing(engine) as session:
            CrewRecords(session, person.crew_id).append([bad])
    return lines


@pytest.mark.parametrize("command", COMMANDS)
def test_every_question_and_report_is_answered(lines: Lines, command: str) -> None:
    answer = lines.say("Ada", command)

    assert answer
    assert "went wrong" not in answer
    with reading(lines.engine) as session:
        assert set(session.scalars(select(InboxRow.state))) == {"done"}


def test_the_other_units_are_due_as_ever(lines: Lines) -> None:
    lines.at(DAY + timedelta(days=16), 15)
    due = lines.say("Ada", "due")

    assert "1b" in due
    assert "1a" not in due.partition("I cannot work out")[0]


def test_who_asks_about_the_unit_is_told(lines: Lines) -> None:
    assert "River 1a: I cannot work it out" in lines.say("Ada", "1a")


def test_the_owner_hears_of_it_once_a_day(lines: Lines) -> None:
    told = [lines.say("Ada", "due") for _ in range(3)]
    lines.later(days=1)
    told += [lines.say("Ada", "due") for _ in range(2)]

    assert ["I cannot work out River 1a" in answer for answer in told] == [
        True,
        False,
        False,
        True,
        False,
    ]


def test_the_morning_comes_with_a_word_to_the_owner(lines: Lines) -> None:
    lines.say("Ada", "morning 6:30")
    lines.at(DAY + timedelta(days=16), 11, 31).morning()
    said = "\n".join(lines.chat.to("Ada")[-2:])

    assert "Look for eggs" in said
    assert said.count("I cannot work out River 1a") == 1
