"""Numbers that nothing in a yard has: they are asked about, and digits of any script are read."""

from datetime import timedelta

import pytest

from bot.reading.reader import read
from bot.reading.result import QuestionKind
from bot.wording.questions import ask
from scheduling.entry_kinds import EntryKind
from tests.bot.reading.yards_for_reading import TODAY, at, found, kinds


@pytest.mark.parametrize("ago", ["99999999999", "301", "99999"])
@pytest.mark.parametrize("span", ["days ago", "weeks back"])
def test_a_day_beyond_all_memory_is_asked_about(ago: str, span: str) -> None:
    reading = read(f"4a eggs {ago} {span}", at())

    assert reading.findings == ()
    assert [question.kind for question in reading.questions] == [QuestionKind.WHICH_DATE]


def test_a_day_within_the_season_is_taken() -> None:
    assert found(read("4a eggs 20 days ago", at())) == {
        ("4a", EntryKind.EGGS, None, TODAY - timedelta(days=20))
    }


@pytest.mark.parametrize(
    "text", ["4a skip till in 99999999999 days", "grafted 40 99999999 weeks ago"]
)
def test_a_day_beyond_all_hope_is_asked_about(text: str) -> None:
    reading = read(text, at())

    assert reading.findings == ()
    assert reading.questions


@pytest.mark.parametrize(
    "text",
    ["\u0664a eggs", "\u096aa eggs", "\uff14a eggs", "\U0001d7d2a eggs"],
    ids=["Arabic", "Devanagari", "wide", "mathematical"],
)
def test_digits_of_other_scripts_are_digits(text: str) -> None:
    assert kinds(text) == {"4a": {EntryKind.EGGS}}


@pytest.mark.parametrize("text", ["box 0", "0", "0a eggs", "box 0 eggs"])
def test_a_box_that_cannot_be_is_named_as_it_was_typed(text: str) -> None:
    (question,) = read(text, at()).questions

    assert "0" in ask(question)
    assert "  " not in ask(question)
