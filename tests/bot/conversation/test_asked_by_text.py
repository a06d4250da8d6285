"""Nobody is texted before their yes, all may end it with a word, and strangers hear little."""

from datetime import timedelta

import pytest
from sqlalchemy import Engine

from bot.channels.channel import SendOutcome, SendResult
from bot.channels.send_error import SendError
from bot.channels.sms.phone_number import Texting
from bot.channels.sms.segments import is_gsm7, segments
from scheduling.records.engine import reading
from scheduling.records.number_tables import NumberAskedRow
from tests.bot.conversation.lines import DAY, MILO, NILS, Lines, crew_of_ada

# "Does Twilio support STOP, BLOCK, and CANCEL (aka SMS STOP Filtering)?",
# www.twilio.com/help/faq/sms/does-twilio-support-stop-block-and-cancel-aka-sms-filtering
STOPPING = ("STOP", "STOPALL", "UNSUBSCRIBE", "CANCEL", "END", "QUIT")


@pytest.fixture
def lines(engine: Engine) -> Lines:
    return crew_of_ada(Lines(engine))


@pytest.fixture
def asked(lines: Lines) -> Lines:
    lines.say("Ada", "invite Milo (202) 555-0123")
    return lines


@pytest.fixture
def joined(asked: Lines) -> Lines:
    asked.text(MILO, "Yes")
    return asked


def test_a_number_in_national_form_is_asked_once_who_asks_what_comes_and_how_to_stop(
    lines: Lines,
) -> None:
    answer = lines.say("Ada", "invite Milo 202-555-0123")

    assert answer == (
        "I ask +12025550123 once, by text. Milo must answer YES; till then I send nothing more."
    )
    (question,) = lines.texts.to(MILO)
    assert "Ada asks you" in question
    assert "text you mornings when work is due" in question
    assert "YES starts it" in question
    assert "STOP ends it" in question
    assert is_gsm7(question)
    assert segments(question) == 1


def test_nothing_more_is_texted_until_the_yes(asked: Lines) -> None:
    asked.say("Ada", "10 day cells in 1a-c")
    for _ in range(4):
        asked.later(days=4).morning()

    assert len(asked.texts.to(MILO)) == 1
    assert asked.person("sms", MILO) is None


def test_asking_again_sends_nothing(asked: Lines) -> None:
    assert "ask once only" in asked.say("Ada", "invite +1 202 555 0123")
    assert "ask once only" in asked.later(days=30).say("Ada", "invite 202.555.0123")
    assert len(asked.texts.to(MILO)) == 1


@pytest.mark.parametrize("yes", ["YES", "yes", "Yes.", "START", "unstop"])
def test_yes_in_any_case_lets_the_partner_in_under_the_name_they_were_given(
    asked: Lines, yes: str
) -> None:
    welcome = asked.text(MILO, yes)

    assert welcome.startswith("Welcome Milo, you share the yards of Ada. Yards: River.")
    assert "Milo joined your crew." in asked.later(minutes=1).chat.to("Ada")
    milo = asked.person("sms", MILO)
    assert milo is not None
    assert milo.zone == "America/Chicago"
    assert "eggs" in asked.text(MILO, "1a eggs")
    assert asked.text(MILO, "due")


def test_the_yes_is_kept_with_its_time(joined: Lines) -> None:
    with reading(joined.engine) as session:
        (row,) = session.query(NumberAskedRow).all()
    assert (row.outcome, row.ended_at) == ("yes", joined.now)


def test_a_yes_after_two_weeks_is_too_late(asked: Lines) -> None:
    assert "not known here" in asked.later(days=15).text(MILO, "yes")
    assert asked.person("sms", MILO) is None


@pytest.mark.parametrize("word", STOPPING)
def test_a_word_of_refusal_ends_the_asking_with_one_confirmation(asked: Lines, word: str) -> None:
    assert asked.text(MILO, word.lower()).startswith("Stopped")
    assert asked.text(MILO, word) == ""
    assert asked.text(MILO, "who are you?") == ""
    assert "Milo said no" in asked.chat.to("Ada")[-1]
    assert "may not text that number" in asked.say("Ada", "invite 202 555 0123")
    assert len(asked.later(days=3).texts.to(MILO)) == 2


def test_who_refused_may_still_come_of_their_own_accord(asked: Lines) -> None:
    code = asked.say("Ada", "invite").split("join ")[1][:6]
    asked.text(MILO, "stop")

    assert "Welcome" in asked.text(MILO, f"join {code}")


@pytest.mark.parametrize("word", STOPPING)
def test_a_word_of_refusal_ends_a_members_texts_at_once_and_start_takes_them_up(
    joined: Lines, word: str
) -> None:
    joined.say("Ada", "10 day cells in 1a-c")
    assert joined.text(MILO, word).startswith("Stopped")
    before = len(joined.texts.shown)

    assert joined.text(MILO, word.title()) == ""
    assert joined.text(MILO, "thanks") == ""
    for _ in range(4):
        joined.later(days=4).morning()
    assert len(joined.texts.shown) == before

    assert joined.text(MILO, "start").startswith("Started. Next morning message at 8:00")
    joined.later(days=1).morning()
    assert len(joined.texts.shown) > before + 1


def test_what_somebody_notes_after_their_stop_is_in_the_log_all_the_same(joined: Lines) -> None:
    joined.text(MILO, "stop")

    assert joined.text(MILO, "1a eggs") == ""
    assert "eggs" in joined.say("Ada", "1a")


@pytest.mark.parametrize(
    "text", ["end of the row 1a eggs", "cancel the trap in 1a", "stop 1a robbing"]
)
def test_a_word_of_refusal_among_others_is_an_ordinary_reply(joined: Lines, text: str) -> None:
    assert joined.text(MILO, text)

    milo = joined.person("sms", MILO)
    assert milo is not None
    assert not milo.stopped


def test_help_says_what_this_is_and_whom_to_ask(joined: Lines) -> None:
    told = joined.text(MILO, "Help")

    assert "texts on bee work due" in told
    assert "ask Ada" in told
    assert segments(told) == 1
    assert "4a-c eggs" in joined.text(MILO, "more")


def test_help_before_the_yes_says_who_asked(asked: Lines) -> None:
    assert "ask Ada" in asked.text(MILO, "HELP")
    assert asked.text(MILO, "huh?") == "", "one answer a day until the yes"
    assert "Welcome" in asked.text(MILO, "yes")


def test_a_number_nobody_invited_gets_one_short_answer_a_day_and_nothing_of_a_crew(
    joined: Lines,
) -> None:
    answer = joined.text(NILS, "due")

    assert "not known here" in answer
    assert segments(answer) == 1
    assert not {"Ada", "River", "Milo"} & set(answer.replace(",", " ").split())
    assert joined.text(NILS, "help") == ""
    assert joined.text(NILS, "join ABC234") == ""
    assert joined.text(NILS, "yes") == ""
    joined.now += timedelta(hours=24)
    assert joined.text(NILS, "join ABC234") == answer, "not even whether the code was good once"


def test_a_clock_that_was_set_back_does_not_silence_a_stranger_for_longer(lines: Lines) -> None:
    lines.text(NILS, "hello")
    lines.at(DAY - timedelta(days=400), 15)

    assert "not known here" in lines.text(NILS, "hello")


def test_a_new_number_takes_the_place_of_the_old_when_it_says_yes(joined: Lines) -> None:
    assert "Answer YES there" in joined.text(MILO, "my new number is 202 555 0124")
    assert "Milo gave this as their number" in joined.texts.to(NILS)[0]
    assert joined.person("sms", MILO) is not None, "the old one serves until the yes"

    assert joined.text(NILS, "YES").startswith("Yes noted")

    assert joined.person("sms", MILO) is None
    assert "1a eggs" in joined.text(NILS, "1a eggs")
    assert "1a eggs" in joined.text(NILS, "undo")


def test_a_chat_gets_a_number_beside_it_and_the_talk_goes_on_across_both(lines: Lines) -> None:
    lines.say("Ada", "number 202 555 0123")
    lines.text(MILO, "yes")
    lines.say("Ada", "1a eggs")

    assert "1a eggs" in lines.text(MILO, "undo")
    assert lines.say("Ada", "due") == lines.text(MILO, "due")


def test_a_number_that_is_none_is_asked_about_and_without_a_carrier_nothing_is_promised(
    engine: Engine,
) -> None:
    lines = crew_of_ada(Lines(engine))
    assert "Write it in full" in lines.say("Ada", "invite Milo 555 0123")
    unable = Lines(engine, texting=Texting())
    assert "no way to text" in unable.say("Ada", "invite Milo 202 555 0123")


def test_only_the_owner_asks_and_a_number_of_the_crew_is_not_asked(joined: Lines) -> None:
    assert "Only Ada" in joined.text(MILO, "invite 202 555 0124")
    assert "in your crew already" in joined.say("Ada", "invite 202 555 0123")
    assert joined.texts.to(NILS) == []


def test_a_number_of_another_crew_is_not_told_apart_from_one_that_nobody_knows(
    joined: Lines,
) -> None:
    joined.say("Bea", "new yard Ridge")
    of_a_member, of_a_stranger = (
        joined.say("Bea", f"invite 202 555 01{end}").replace(end, "") for end in ("23", "24")
    )
    assert of_a_member == of_a_stranger


def test_a_member_of_another_crew_who_stopped_is_not_told_apart_from_who_wants_silence(
    joined: Lines,
) -> None:
    joined.text(NILS, "stop")
    joined.text(MILO, "stop")
    joined.say("Bea", "new yard Ridge")
    assert joined.say("Bea", "invite 202 555 0123") == joined.say("Bea", "invite 202 555 0124")


def test_who_asked_hears_that_the_number_takes_no_texts(lines: Lines) -> None:
    lines.texts.failing = lambda _: SendOutcome(
        SendResult.UNREACHABLE, error=SendError.NO_SUCH_NUMBER
    )
    lines.say("Ada", "invite Milo 202 555 0123")

    told = lines.later(minutes=1).chat.to("Ada")[-1]
    assert told == "My question did not reach Milo: there is no such number."


def test_few_numbers_of_a_crew_may_wait_for_their_yes(lines: Lines) -> None:
    answers = [lines.say("Ada", f"invite 202 555 01{n}") for n in range(30, 37)]

    assert sum("once, by text" in answer for answer in answers) == 5
    assert "not answered yet" in answers[-1]
