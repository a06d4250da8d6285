"""One number is answered only so much a day: it is noted all the same, and others are answered."""

import pytest
from sqlalchemy import Engine

from bot.channels.sms.segments import is_gsm7, segments
from bot.delivery.answer_limit import AnswerLimit
from bot.delivery.sms_budget import used_in_month
from bot.settings.settings import Settings
from bot.wording.consent_texts import no_more_today
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import reading
from tests.bot.conversation.lines import DAY, MILO, NILS, Lines, crew_of_ada

MOST = 12


@pytest.fixture
def texted(engine: Engine) -> Lines:
    """Milo and Nils by text beside Ada on the chat, the day after they came."""
    lines = crew_of_ada(Lines(engine, answer_limit=AnswerLimit(MOST)))
    for who, number in (("Milo", MILO), ("Nils", NILS)):
        lines.say("Ada", f"invite {who} {number}")
        lines.text(number, "yes")
    return lines.later(days=1)


def entries(lines: Lines) -> int:
    ada = lines.person("telegram", "Ada")
    assert ada is not None
    with reading(lines.engine) as session:
        return len(CrewRecords(session, ada.crew_id).entries())


def test_of_120_calls_for_help_a_day_pays_only_so_many_segments(texted: Lines) -> None:
    before = len(texted.texts.to(MILO))
    for _ in range(120):
        texted.text(MILO, "help")
    answers = texted.texts.to(MILO)[before:]

    *answered, last = answers
    assert last == no_more_today()
    assert MOST - segments(answered[0]) < sum(map(segments, answered)) <= MOST


def test_what_is_sent_beyond_it_is_noted(texted: Lines) -> None:
    for _ in range(20):
        texted.text(MILO, "help")
    noted = entries(texted)

    assert texted.text(MILO, "1a eggs") == ""
    assert entries(texted) == noted + 1


def test_others_are_answered_and_lose_nothing(texted: Lines) -> None:
    for _ in range(20):
        texted.text(MILO, "help")
    with reading(texted.engine) as session:
        used = used_in_month(session, texted.now)
    for _ in range(20):
        texted.text(MILO, "help")
    with reading(texted.engine) as session:
        assert used_in_month(session, texted.now) == used

    assert "1a eggs" in texted.text(NILS, "1a eggs")
    assert "1a eggs" in texted.say("Ada", "1a eggs")


def test_answers_come_again_the_next_day_of_the_person(texted: Lines) -> None:
    """Milo's clock is Chicago's: his day ends at 5:00 UTC."""
    for _ in range(20):
        texted.text(MILO, "help")
    night = DAY.replace(day=DAY.day + 2)

    assert texted.at(night, 4, 59).text(MILO, "1a eggs") == ""
    assert "eggs" in texted.at(night, 5, 0).text(MILO, "1a eggs")


def test_a_stop_is_confirmed_and_a_morning_comes_all_the_same(texted: Lines) -> None:
    texted.say("Ada", "10 day cells in 1a-c")
    for _ in range(20):
        texted.text(MILO, "help")
        texted.text(NILS, "help")
    assert texted.text(MILO, "stop").startswith("Stopped")

    before = len(texted.texts.to(NILS))
    for day in range(3, 8):
        texted.at(DAY.replace(day=DAY.day + day), 14).morning()
    assert len(texted.texts.to(NILS)) > before


def test_the_chat_has_no_such_limit(texted: Lines) -> None:
    assert all(texted.say("Ada", "help") for _ in range(30))


def test_the_last_words_are_plain_and_one_segment() -> None:
    assert is_gsm7(no_more_today())
    assert segments(no_more_today()) == 1


def test_what_is_not_set_is_40_a_day_and_3000_a_month() -> None:
    sms = Settings().sms
    assert (sms.daily_answer_segments, sms.monthly_segments) == (40, 3000)
