"""A bare number after a unit is a count, a box or a question, but never taken for the wrong one."""

import pytest

from bot.reading.reader import read
from bot.reading.result import QuestionKind
from scheduling.entry_kinds import EntryKind
from scheduling.values import Feed, TrapCount
from tests.bot.reading.yards_for_reading import at, kinds


def counted(text: str) -> list[int]:
    findings = read(text, at()).findings
    return [f.value.beetles for f in findings if isinstance(f.value, TrapCount)]


@pytest.mark.parametrize("text", ["4b trap 14", "trap 4b 14", "4b beetles 14", "4b trap: 14 shb"])
def test_a_number_beside_a_trap_counts_beetles(text: str) -> None:
    assert counted(text) == [14]


def test_the_number_of_a_box_that_stands_beside_a_unit_may_be_that_box() -> None:
    assert kinds("fed 4b 7") == {"4b": {EntryKind.FED}, "7": {EntryKind.FED}}


@pytest.mark.parametrize("text", ["fed 4b 5", "fed 4b 3"])
def test_a_number_that_may_be_a_box_or_a_measure_is_asked_about(text: str) -> None:
    reading = read(text, at())
    assert reading.findings == ()
    assert [question.kind for question in reading.questions] == [QuestionKind.BAD_NUMBER]


def test_in_a_yard_not_known_yet_a_number_after_a_unit_is_asked_about() -> None:
    assert read("trap 4b 12", at(yards=(), current=None)).findings == ()


def test_a_beetle_trap_is_not_one_beetle() -> None:
    assert kinds("4b put a beetle trap in") == {"4b": {EntryKind.TRAP_SET}}


@pytest.mark.parametrize("text", ["4b 2:1", "4:8>>4;", '"6"1:8', ".!4b 4:9"])
def test_a_ratio_alone_feeds_nothing(text: str) -> None:
    assert read(text, at()).findings == ()


@pytest.mark.parametrize("text", ["fed 4b 2:1", "4b 2:1 syrup", "2:1 1 quart 4b", "4b 1 quart 2:1"])
def test_a_ratio_with_food_or_a_volume_is_that_of_the_syrup(text: str) -> None:
    fed = [finding.value for finding in read(text, at()).findings]
    assert [feed.ratio for feed in fed if isinstance(feed, Feed)] == ["2:1"]
