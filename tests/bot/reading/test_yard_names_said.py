"""Yards are called by their names, the longest that fits, or by a beginning that is clear."""

from dataclasses import replace

import pytest

from bot.reading.name_clashes import NameClash, clash_of
from bot.reading.reader import read
from bot.reading.result import Command, CommandName, QuestionKind
from bot.reading.situation import YardUnits
from tests.bot.reading.yards_for_reading import at, units


def yards(*names: str) -> tuple[YardUnits, ...]:
    return tuple(YardUnits(name, units("1a 1b 2 3a")) for name in names)


def place(text: str, *names: str, current: str | None = None) -> list[str]:
    """The places that a report is of."""
    reading = read(text, at(yards=yards(*names), current=current))
    return [str(finding.place) for finding in reading.findings]


@pytest.mark.parametrize(
    ("text", "where"),
    [
        ("mill 1a eggs", "Mill 1a"),
        ("mill pond 1a eggs", "Mill Pond 1a"),
        ("1a eggs at mill pond", "Mill Pond 1a"),
        ("1a eggs at the mill", "Mill 1a"),
        ("Mill Pond: 1a eggs", "Mill Pond 1a"),
    ],
)
@pytest.mark.parametrize("names", [("Mill", "Mill Pond"), ("Mill Pond", "Mill")])
def test_of_two_names_that_begin_alike_the_longer_wins(
    names: tuple[str, ...], text: str, where: str
) -> None:
    assert place(text, *names) == [where]


@pytest.mark.parametrize(
    ("text", "where"),
    [
        ("ridge 1a eggs", "Ridge 1a"),
        ("ridge 2 1a eggs", "Ridge 2 1a"),
        ("ridge 2: 1a eggs", "Ridge 2 1a"),
        ("ridge 1 eggs", "Ridge 1a"),
    ],
)
@pytest.mark.parametrize("names", [("Ridge", "Ridge 2"), ("Ridge 2", "Ridge")])
def test_a_number_may_belong_to_a_name(names: tuple[str, ...], text: str, where: str) -> None:
    assert place(text, *names)[0] == where


@pytest.mark.parametrize(
    "text",
    ["st. mary's 1a eggs", "St Mary's 1a eggs", "1a eggs at st. mary\u2019s", "st mary 1a eggs"],
)
def test_marks_in_a_name_may_be_left_out(text: str) -> None:
    assert place(text, "St. Mary's", "River") == ["St. Mary's 1a"]


def test_a_name_that_begins_with_the() -> None:
    for text in ("the mill 1a eggs", "1a eggs at the mill"):
        assert place(text, "The Mill", "River") == ["The Mill 1a"]


def test_the_beginning_of_one_name_is_understood() -> None:
    assert place("orchard 1a eggs", "Orchard Hill", "River") == ["Orchard Hill 1a"]


def test_the_beginning_of_several_names_is_asked_about() -> None:
    reading = read("mill 1a eggs", at(yards=yards("Mill Pond", "Mill House"), current=None))

    assert reading.findings == ()
    assert reading.questions[0].kind is QuestionKind.WHICH_YARD
    assert reading.questions[0].options == ("Mill Pond", "Mill House")


def test_of_several_that_begin_alike_the_yard_of_the_talk_is_meant() -> None:
    names = ("Mill Pond", "Mill House")

    assert place("mill 1a eggs", *names, current="Mill House") == ["Mill House 1a"]


@pytest.mark.parametrize("name", ["Honey Hill", "Sunny Bank", "Good Field"])
def test_a_beginning_that_means_something_else_calls_no_yard(name: str) -> None:
    text = f"1a eggs, {name.split()[0].lower()}"

    assert read(text, at(yards=yards(name, "River"), current="River")).yard is None


def test_commands_take_the_longest_name_too() -> None:
    situation = at(yards=yards("Mill", "Mill Pond", "St. Mary's"), current=None)

    assert read("due mill pond", situation).command == Command(CommandName.DUE, yard="Mill Pond")
    assert read("mill due", situation).command == Command(CommandName.DUE, yard="Mill")
    assert read("due at st. mary's", situation).command == Command(
        CommandName.DUE, yard="St. Mary's"
    )
    boxes = read("boxes 4-5 of 3 at mill pond", situation).command
    assert boxes is not None
    assert boxes.yard == "Mill Pond"


@pytest.mark.parametrize("name", ["St. Mary's", "Bob's", "Q Hill", "O'Hara"])
def test_a_new_name_is_kept_as_it_is_written(name: str) -> None:
    assert read(f"new yard {name}", at()).command == Command(CommandName.YARD, word=name)
    assert read(f"/yard {name}", at()).command == Command(CommandName.YARD, word=name)


def test_a_name_with_other_marks_is_the_same_yard() -> None:
    situation = replace(at(), yards=yards("St. Mary's"))

    command = read("yard st mary\u2019s", situation).command
    assert command is not None
    assert command.yard == "St. Mary's"


@pytest.mark.parametrize(
    ("name", "clash"),
    [
        ("4", NameClash.NUMBER),
        ("4b", NameClash.NUMBER),
        ("12.5", NameClash.NUMBER),
        ("2027-05-12", NameClash.NUMBER),
        ("--", NameClash.NUMBER),
        ("due", NameClash.COMMAND),
        ("Undo", NameClash.COMMAND),
        ("stop", NameClash.COMMAND),
        ("cancel", NameClash.COMMAND),
        ("yes", NameClash.COMMAND),
        ("box 4", NameClash.COMMAND),
        ("morning 6", NameClash.COMMAND),
        ("eggs", NameClash.FINDING),
        ("Queen Dead", NameClash.FINDING),
        ("all", NameClash.FINDING),
        ("Friday", NameClash.FINDING),
    ],
)
def test_names_that_mean_something_else(name: str, clash: NameClash) -> None:
    assert clash_of(name) is clash


@pytest.mark.parametrize(
    "name", ["River", "Mill Pond", "Ridge 2", "St. Mary's", "Queen Hill", "Home", "Orchard"]
)
def test_names_that_yards_may_have(name: str) -> None:
    assert clash_of(name) is None
