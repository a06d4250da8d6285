"""What nobody asked for waits until the morning; what they just asked is answered at once."""

from datetime import timedelta

import pytest
from sqlalchemy import Engine

from bot.channels.sms.segments import is_gsm7
from bot.jobs.clock_set_back import due_again
from bot.reading.reader import read
from bot.reading.result import CommandName, QuestionKind
from bot.reading.situation import Situation
from bot.wording.cautions import cautions
from tests.bot.conversation.lines import DAY, MILO, NILS, Lines, crew_of_ada

NEXT = DAY + timedelta(days=1)


@pytest.fixture
def joined(engine: Engine) -> Lines:
    """Ada on the chat and Milo by text, both by the clock of Chicago, five hours behind UTC."""
    lines = crew_of_ada(Lines(engine))
    lines.say("Ada", "invite Milo 202 555 0123")
    lines.text(MILO, "yes")
    return lines.later(minutes=1)


def test_news_waits_for_the_morning_on_each_channel_and_an_answer_does_not(joined: Lines) -> None:
    code = joined.say("Ada", "invite").split("join ")[1][:6]
    chat, texts = len(joined.chat.shown), len(joined.texts.to(MILO))
    joined.at(NEXT, 4, 30)  # 23:30 there
    joined.text(NILS, f"join {code}")
    joined.deliver()
    assert (len(joined.chat.shown), len(joined.texts.to(MILO))) == (chat, texts)
    assert joined.text(MILO, "due"), "who writes at night is answered at night"

    joined.at(NEXT, 10, 59).deliver()
    assert len(joined.chat.shown) == chat
    joined.at(NEXT, 11).deliver()
    assert joined.chat.shown[-1].text.endswith("joined your crew.")
    assert "joined" not in joined.texts.to(MILO)[-1]
    joined.at(NEXT, 13).deliver()
    assert joined.texts.to(MILO)[-1].endswith("joined your crew.")


def test_a_text_in_the_morning_waits_for_eight_unless_an_earlier_hour_was_asked_for(
    joined: Lines,
) -> None:
    joined.say("Ada", "10 day cells in 1a-c")
    due = DAY + timedelta(days=3)
    joined.at(due, 12, 59).morning()
    before = len(joined.texts.to(MILO))
    joined.at(due, 13).morning()
    assert len(joined.texts.to(MILO)) > before

    asked_at = joined.now
    joined.text(MILO, "morning 5:45")
    joined.at(due + timedelta(days=1), 10, 44).morning()
    before = len(joined.texts.to(MILO))
    joined.at(due + timedelta(days=1), 10, 45).morning()
    assert len(joined.texts.to(MILO)) > before
    milo = joined.person("sms", MILO)
    assert milo is not None
    assert milo.morning_asked_at == asked_at


def test_a_number_is_not_asked_at_night(engine: Engine) -> None:
    lines = crew_of_ada(Lines(engine)).at(NEXT, 3)  # 22:00 there
    lines.say("Ada", "invite Milo 202 555 0123")
    assert lines.texts.to(MILO) == []

    assert len(lines.at(NEXT, 13).later(minutes=0).texts.to(MILO)) == 1


def test_who_asks_at_night_hears_when_the_number_is_asked(engine: Engine) -> None:
    lines = crew_of_ada(Lines(engine)).at(NEXT, 3)  # 22:00 there
    told = lines.say("Ada", "invite Milo 202 555 0123")
    assert told == (
        "I ask +12025550123 once, by text, at 8:00 when the quiet hours end. "
        "Milo must answer YES; till then I send nothing more."
    )
    own = lines.say("Ada", "number 202 555 0124")
    assert "by text at 8:00 when the quiet hours end" in own
    assert is_gsm7(told + own)


@pytest.mark.parametrize("channel", ["telegram", "sms"])
def test_the_caution_comes_beside_the_answer_to_who_writes_first_at_night(
    engine: Engine, channel: str
) -> None:
    """Whoever writes is awake, and may be about to open a box."""
    lines = Lines(engine).at(NEXT, 3)
    line = lines.chat if channel == "telegram" else lines.texts
    who = "Ada" if channel == "telegram" else MILO
    line_says = lines.say if channel == "telegram" else lines.text
    line_says(who, "begin")
    lines.deliver()

    assert [letter.text for letter in line.shown][1:] == [cautions()]


def test_the_yearly_caution_before_a_morning_keeps_to_the_morning(joined: Lines) -> None:
    joined.say("Ada", "10 day cells in 1a-c")
    a_year_on = DAY.replace(year=DAY.year + 1) + timedelta(days=1)
    shown = len(joined.chat.shown)
    joined.at(a_year_on, 4, 30).morning()  # 23:30 there
    assert len(joined.chat.shown) == shown
    joined.at(a_year_on, 12).deliver()
    assert cautions() in [letter.text for letter in joined.chat.shown[shown:]]


def test_what_waits_for_the_morning_is_not_taken_for_a_clock_set_back(joined: Lines) -> None:
    joined.at(NEXT, 3)
    joined.say("Ada", "invite 202 555 0124")
    assert due_again(joined.engine, joined.now) == 0

    joined.now -= timedelta(days=400)
    assert due_again(joined.engine, joined.now) > 0


def test_quiet_hours_are_shown_settled_and_given_back(joined: Lines) -> None:
    shown = joined.text(MILO, "quiet")
    assert shown.startswith("Quiet 20:00 to 8:00, America/Chicago time")
    assert is_gsm7(shown)
    assert "22:00 to 5:30" in joined.text(MILO, "quiet hours 10pm to 5:30 am")
    milo = joined.person("sms", MILO)
    assert milo is not None
    assert milo.quiet_asked_at == joined.now
    assert "Quiet never" in joined.text(MILO, "quiet off")
    assert "20:00 to 8:00" in joined.text(MILO, "usual quiet")
    assert "21:00 to 6:00" in joined.say("Ada", "quiet?")


def test_what_waits_comes_when_its_person_settles_other_hours(joined: Lines) -> None:
    code = joined.say("Ada", "invite").split("join ")[1][:6]
    joined.at(NEXT, 4, 30).text(NILS, f"join {code}")
    joined.deliver()
    assert not joined.chat.to("Ada")[-1].endswith("joined your crew.")

    joined.say("Ada", "quiet off")
    joined.later(minutes=1)
    assert joined.chat.to("Ada")[-1].endswith("joined your crew.")


def test_two_channels_show_the_hours_of_each(joined: Lines) -> None:
    joined.give("Ada", "sms", NILS)

    assert "telegram 21:00 to 6:00; sms 20:00 to 8:00" in joined.say("Ada", "quiet hours")


@pytest.mark.parametrize("text", ["quiet 25 to 6", "quiet 13pm to 6", "quiet 9 to 5:75"])
def test_hours_that_no_clock_has_are_asked_about(text: str) -> None:
    (question,) = read(text, Situation(today=DAY)).questions
    assert question.kind is QuestionKind.BAD_NUMBER


def test_a_quiet_unit_is_no_command() -> None:
    reading = read("4b quiet", Situation(today=DAY))
    assert reading.command is None or reading.command.name is not CommandName.QUIET
