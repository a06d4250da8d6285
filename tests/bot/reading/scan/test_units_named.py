"""How keepers name units: lists, runs, positions, exceptions, yards."""

import pytest

from bot.reading.reader import read
from bot.reading.result import QuestionKind
from bot.reading.situation import YardUnits
from scheduling.check_kinds import CheckKind
from scheduling.entry_kinds import EntryKind
from scheduling.values import Feed
from tests.bot.reading.yards_for_reading import HOME, RIVER, at, for_each, kinds, units


@pytest.mark.parametrize(
    ("said", "names"),
    [
        ("4a-c", "4a 4b 4c"),
        ("4abc", "4a 4b 4c"),
        ("4a, b and c", "4a 4b 4c"),
        ("4", "4a 4b 4c"),
        ("all of 4", "4a 4b 4c"),
        ("4c-5b", "4c 5a 5b"),
        ("7", "7"),
        ("7-8", "7 8a 8b"),
        ("8 left", "8a"),
        ("8 right", "8b"),
        ("4 middle", "4b"),
        ("four bee", "4b"),
        ("box four left", "4a"),
    ],
)
def test_names_stand_for_units_in_yard_order(said: str, names: str) -> None:
    assert kinds(f"{said} eggs") == for_each(names, EntryKind.EGGS)


@pytest.mark.parametrize("said", ["4d", "4a-d", "9", "7a", "8 middle", "4c-a", "0b"])
def test_a_unit_that_does_not_exist_is_asked_about(said: str) -> None:
    reading = read(f"{said} eggs", at())
    assert reading.findings == ()
    assert {question.kind for question in reading.questions} == {QuestionKind.NO_SUCH_UNIT}


@pytest.mark.parametrize("text", ["3l 5duac ä5.d", "eggs 5duac 5d", "4bx eggs", "4x eggs"])
@pytest.mark.parametrize("yards", [(HOME, RIVER), (HOME,)])
def test_letters_run_on_to_a_number_that_no_unit_has_do_not_leave_the_whole_box(
    text: str, yards: tuple[YardUnits, ...]
) -> None:
    reading = read(text, at(yards=yards))
    assert reading.findings == ()
    assert QuestionKind.NO_SUCH_UNIT in {question.kind for question in reading.questions}


@pytest.mark.parametrize("said", ["4x", "5duac", "4a-5xyz"])
def test_in_a_yard_not_known_yet_letters_that_no_unit_has_are_asked_about(said: str) -> None:
    reading = read(f"{said} eggs", at(yards=(), current=None))
    assert [question.kind for question in reading.questions] == [QuestionKind.NO_SUCH_UNIT]


def test_beside_a_unit_that_cannot_be_the_others_count() -> None:
    assert kinds("5duac eggs, 4a eggs") == {"4a": {EntryKind.EGGS}}


def test_of_a_list_the_units_that_exist_count() -> None:
    reading = read("4a 4d eggs", at())
    assert [str(finding.place.unit) for finding in reading.findings] == ["4a"]
    assert reading.questions[0].units == ("4d",)


def test_a_box_in_two_yards_is_the_one_of_the_yard_the_talk_is_in() -> None:
    assert read("4b eggs", at(current="River")).findings[0].place.yard == "River"


def test_a_box_in_two_yards_is_asked_about_when_nothing_tells_which() -> None:
    reading = read("4b eggs", at(current=None))
    assert reading.findings == ()
    assert reading.questions[0].options == ("Home", "River")


def test_a_box_that_only_one_yard_has_needs_no_yard() -> None:
    assert read("20b eggs", at()).findings[0].place.yard == "River"


def test_a_missing_compartment_is_not_looked_for_in_another_yard() -> None:
    reading = read("4c eggs", at(current="River"))
    assert reading.findings == ()
    assert reading.questions[0].kind is QuestionKind.NO_SUCH_UNIT


def test_the_yard_named_turns_the_talk() -> None:
    reading = read("river 4b eggs", at())
    assert reading.yard == "River"
    assert reading.findings[0].place.yard == "River"


def test_a_yard_of_two_words_is_known_by_both() -> None:
    hill = YardUnits("Orchard Hill", units("30a 30b"))
    reading = read("orchard hill 30 eggs", at(yards=(HOME, RIVER, hill)))
    assert {f.place.yard for f in reading.findings} == {"Orchard Hill"}


def test_out_means_what_the_unit_waits_for() -> None:
    waiting = {"1a": CheckKind.EMERGENCE, "4a": CheckKind.RELEASE}
    assert kinds("1a out", at(waiting=waiting)) == {"1a": {EntryKind.EMERGED}}
    assert kinds("4a out", at(waiting=waiting)) == {"4a": {EntryKind.RELEASED}}
    assert kinds("5a out", at(waiting=waiting)) == {}


def test_all_out_is_the_only_group_that_waits_to_come_out() -> None:
    waiting = {"1a": CheckKind.EMERGENCE, "1b": CheckKind.EMERGENCE, "4a": CheckKind.LAYING}
    assert kinds("all out", at(waiting=waiting)) == for_each("1a 1b", EntryKind.EMERGED)


def test_all_out_is_asked_about_when_two_groups_wait() -> None:
    waiting = {"1a": CheckKind.EMERGENCE, "4a": CheckKind.RELEASE}
    reading = read("all out", at(waiting=waiting))
    assert reading.findings == ()
    assert reading.questions[0].kind is QuestionKind.NO_UNIT


@pytest.mark.parametrize("stop", [".", ". "])
def test_a_full_stop_before_a_unit_may_lack_its_space(stop: str) -> None:
    assert kinds(f"4a eggs{stop}4b no eggs") == {"4a": {EntryKind.EGGS}, "4b": {EntryKind.NO_EGGS}}
    assert kinds(f"4a eggs{stop}4bc no eggs") == kinds("4a eggs, 4bc no eggs")


@pytest.mark.parametrize("text", ["eggs .4ab", "4a .5ab laying"])
def test_a_fraction_with_letters_run_on_is_read_without_a_crash(text: str) -> None:
    assert {str(each.place.unit) for each in read(text, at()).findings} <= {"4a"}


def test_a_fraction_after_a_word_stays_one() -> None:
    (finding,) = read("4a fed.5 l", at()).findings
    assert finding.value == Feed(syrup_litres=0.5)


@pytest.mark.parametrize("into", ["4", "9a", "ridge 2", "the big hive"])
def test_what_a_unit_was_combined_into_need_not_be_one_of_ours(into: str) -> None:
    (finding,) = read(f"combined 4a into {into}", at()).findings
    assert (str(finding.place.unit), finding.kind, finding.note) == (
        "4a",
        EntryKind.COMBINED,
        into,
    )
