"""Somebody on texts adds a chat, somebody on a chat adds a number: one person then has both."""

import re
from datetime import timedelta

import pytest
from sqlalchemy import Engine

from bot.channels.sms.segments import is_gsm7
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import reading
from tests.bot.conversation.lines import DAY, MILO, Lines, crew_of_ada

DUE = DAY + timedelta(days=3)


@pytest.fixture
def texted(engine: Engine) -> Lines:
    """Ada on the chat, and Milo, who said yes by text, with cells due for a look."""
    lines = crew_of_ada(Lines(engine))
    lines.say("Ada", "invite Milo 202 555 0123")
    lines.text(MILO, "yes")
    lines.say("Ada", "10 day cells in 1a-c")
    return lines


def code_in(text: str) -> str:
    found = re.search(r"join ([A-Z0-9]{6})", text)
    assert found is not None, text
    return found[1]


def people(lines: Lines) -> list[str]:
    ada = lines.person("telegram", "Ada")
    assert ada is not None
    with reading(lines.engine) as session:
        return [person.name for person in CrewRecords(session, ada.crew_id).people()]


@pytest.mark.parametrize("asking", ["add chat", "add telegram", "link my chat", "add a channel"])
def test_somebody_on_texts_adds_a_chat_with_a_code(texted: Lines, asking: str) -> None:
    told = texted.text(MILO, asking)
    assert is_gsm7(told)
    answer = texted.say("Milo's chat", f"join {code_in(told)}")

    assert answer.startswith("Yes, Milo: this is your second way to me. text first, then Telegram")
    assert people(texted) == ["Ada", "Milo"], "nobody new"
    news = [text for text in texted.chat.to("Ada") if "joined your crew" in text]
    assert len(news) == 1, "of Milo's yes by text alone"
    milo = texted.person("telegram", "Milo's chat")
    assert milo == texted.person("sms", MILO)


@pytest.fixture
def both(texted: Lines) -> Lines:
    texted.say("Milo's chat", f"join {code_in(texted.text(MILO, 'add chat'))}")
    return texted


def test_the_talk_goes_on_across_both(both: Lines) -> None:
    both.say("Milo's chat", "1a eggs")

    assert "1a eggs" in both.text(MILO, "undo")
    assert both.say("Milo's chat", "due") == both.text(MILO, "due")


def test_the_morning_comes_on_the_first_alone_which_they_may_change(both: Lines) -> None:
    both.at(DUE, 14).morning()
    said = f"{DUE:%a} {DUE.day} {DUE:%b}"
    assert sum(text.startswith(said) for text in both.texts.to(MILO)) == 1
    assert not any(text.startswith(said) for text in both.chat.to("Milo's chat"))

    assert both.text(MILO, "telegram first").startswith("Telegram first, then text")
    both.at(DUE + timedelta(days=1), 14).morning()
    assert both.chat.to("Milo's chat")[-1].startswith(f"{DUE + timedelta(days=1):%a}")


def test_somebody_on_a_chat_adds_a_number_with_a_yes(texted: Lines) -> None:
    texted.say("Ada", "number 202 555 0124")
    assert texted.text("+12025550124", "yes").startswith("Yes noted")

    assert texted.say("Ada", "channels").startswith("Telegram first, then text")
    assert texted.person("sms", "+12025550124") == texted.person("telegram", "Ada")


def test_a_code_adds_one_channel_once_and_for_two_weeks(texted: Lines) -> None:
    first = code_in(texted.text(MILO, "add chat"))
    texted.say("Milo's chat", f"join {first}")
    assert "not good" in texted.say("Cleo's chat", f"join {first}")

    late = code_in(texted.text(MILO, "add chat"))
    texted.now += timedelta(days=15)
    assert "not good" in texted.say("Cleo's chat", f"join {late}")


def test_a_code_of_ones_own_typed_where_it_came_from_changes_nothing(texted: Lines) -> None:
    code = code_in(texted.text(MILO, "add chat"))

    assert "in a crew already" in texted.text(MILO, f"join {code}")
    assert texted.say("Milo's chat", f"join {code}").startswith("Yes, Milo")


def test_a_chat_with_a_crew_of_its_own_keeps_it_beside(texted: Lines) -> None:
    texted.say("Milo's chat", "new yard Hill")
    texted.say("Milo's chat", f"join {code_in(texted.text(MILO, 'add chat'))}")

    assert texted.say("Milo's chat", "river 1a eggs").startswith("Ada's crew: Noted")
    assert "Hill" not in texted.say("Ada", "due")


def test_who_asks_for_a_chat_that_they_do_not_have_is_told_how(texted: Lines) -> None:
    assert "add Telegram" in texted.text(MILO, "telegram first")
    assert "add chat" in texted.text(MILO, "channels")
