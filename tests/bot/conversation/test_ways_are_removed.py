"""A lost phone or an old address is taken off by whoever it belongs to, but never the last way."""

from datetime import timedelta

import pytest
from sqlalchemy import Engine

from bot.channels.channel import SendResult
from tests.bot.conversation.crew_of_two import ada_and_milo, milo_by_text, only_to
from tests.bot.conversation.lines import DAY, MILO, Lines

DUE = DAY + timedelta(days=3)
STRANGE = "Type begin"


@pytest.fixture
def crew(engine: Engine) -> Lines:
    return ada_and_milo(Lines(engine))


@pytest.fixture
def both(crew: Lines) -> Lines:
    return milo_by_text(crew)


def test_a_lost_phone_is_taken_off_and_reads_nothing_more(both: Lines) -> None:
    assert both.say("Milo", "remove number") == (
        f"Your number {MILO} reaches you no more. Left: Telegram."
    )
    assert "not known here" in both.text(MILO, "due")
    assert "River" in both.say("Milo", "yards")


@pytest.mark.parametrize("text", ["remove number 202 555 0123", "remove my number +1 202 555 0123"])
def test_a_number_may_be_named(both: Lines, text: str) -> None:
    assert "reaches you no more" in both.say("Milo", text)


def test_a_number_that_is_none_of_theirs_is_asked_about(both: Lines) -> None:
    assert both.say("Milo", "remove number 202 555 0199") == (
        f"Which number is that? You are reached by: Telegram Milo, number {MILO}."
    )
    assert "due" in both.text(MILO, "help")


def test_a_chat_is_taken_off_from_the_phone(both: Lines) -> None:
    both.text(MILO, "text first")
    assert both.text(MILO, "remove chat") == "Your Telegram reaches you no more. Left: number."
    assert STRANGE in both.say("Milo", "due")
    assert "River" in both.text(MILO, "yards")


def test_the_chat_one_writes_from_may_be_taken_off_and_says_so_there(both: Lines) -> None:
    assert both.say("Milo", "remove chat").startswith("Your Telegram reaches you no more")
    assert STRANGE in both.say("Milo", "due")


def test_what_waits_at_a_way_that_is_taken_off_goes_to_the_next(both: Lines) -> None:
    both.say("Milo", "text first")
    both.texts.failing = only_to(MILO, SendResult.LATER)
    both.at(DUE, 15).morning()
    both.say("Milo", "remove number")
    both.texts.failing = lambda _: None
    both.later(minutes=30)

    assert both.chat.to("Milo")[-1].startswith(f"{DUE:%a} {DUE.day}")
    assert not [text for text in both.texts.to(MILO) if text.startswith(f"{DUE:%a} {DUE.day}")]


def test_the_last_way_is_never_taken_off(crew: Lines) -> None:
    assert "only way to me" in crew.say("Milo", "remove chat")
    assert "River" in crew.say("Milo", "yards")
