"""Questions are short, plain, and say what to type instead."""

import pytest
import smsutil

from bot.reading.reader import read
from bot.reading.result import Question, QuestionKind
from bot.wording.questions import ask
from tests.bot.reading.yards_for_reading import at


@pytest.mark.parametrize("kind", list(QuestionKind))
def test_every_question_fits_one_plain_sms(kind: QuestionKind) -> None:
    question = Question(
        kind, "saw something odd in four bee \u2013 today", ("4b", "4c"), ("eggs", "dud")
    )
    words = ask(question)
    assert smsutil.is_valid_gsm(words)
    assert len(words) <= 160
    assert "4b" in words or "odd" in words or kind is QuestionKind.NOTHING_SAID


@pytest.mark.parametrize(
    ("text", "must_say"),
    [
        ("4d eggs", "4d"),
        ("5a out", "5a emerged or 5a released"),
        ("4b eggs no eggs", "4b"),
        ("eggs", "which units"),
        ("4b blah", "4b blah"),
        ("4b skip", "4b skip till friday"),
        ("4b eggs tomorrow", "which day"),
        ("fed 4b 2 lb", "2 lb fondant"),
    ],
)
def test_a_question_names_what_was_said_or_what_to_type(text: str, must_say: str) -> None:
    said = " ".join(ask(question) for question in read(text, at()).questions)
    assert must_say in said


@pytest.mark.parametrize("text", ["5a out", "4b multiple eggs", "4b drone brood", "4b queenless"])
def test_each_reading_offered_is_itself_understood(text: str) -> None:
    (question,) = read(text, at()).questions
    for option in question.options:
        reading = read(f"{question.units[0]} {option}", at())
        assert len(reading.findings) == 1
        assert reading.questions == ()
