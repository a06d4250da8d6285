"""Cancel, end, quit and remove stop messages over texts only; elsewhere they leave a question."""

import pytest
from sqlalchemy import Engine

from tests.bot.conversation.lines import MILO, Lines, crew_of_ada

LEAVING = ("cancel", "end", "quit", "remove", "/cancel")


@pytest.fixture
def lines(engine: Engine) -> Lines:
    lines = crew_of_ada(Lines(engine))
    lines.give("Ada", "sms", MILO)
    return lines


def stopped(lines: Lines) -> bool:
    ada = lines.person("telegram", "Ada")
    assert ada is not None
    return ada.stopped


@pytest.mark.parametrize("word", LEAVING)
def test_in_a_chat_they_stop_nothing(lines: Lines, word: str) -> None:
    assert "Nothing was asked" in lines.say("Ada", word)
    assert not stopped(lines)


@pytest.mark.parametrize("word", LEAVING)
def test_by_text_they_stop_all_messages(lines: Lines, word: str) -> None:
    assert "Stopped" in lines.text(MILO, word)
    assert stopped(lines)


@pytest.mark.parametrize("word", ["stop", "unsubscribe", "optout"])
def test_a_plain_word_of_refusal_stops_everywhere(lines: Lines, word: str) -> None:
    assert "Stopped" in lines.say("Ada", word)
    assert stopped(lines)


def test_yes_starts_messages_by_text_only(lines: Lines) -> None:
    lines.say("Ada", "stop")

    assert "Started" not in lines.say("Ada", "yes")
    assert stopped(lines)
    assert "Started" in lines.text(MILO, "yes")
    assert not stopped(lines)


def test_they_leave_the_question_which_yard_was_meant(lines: Lines) -> None:
    for text in ("new yard Hill", "boxes 1-2 of 3"):
        lines.say("Ada", text)
    lines.later(days=1)
    assert "which yard" in lines.say("Ada", "1a eggs")

    assert "Left." in lines.say("Ada", "cancel")
    assert "Now at River" in lines.say("Ada", "river")
