"""One person on a chat and by text: one channel first, the other when it fails or is too slow."""

from datetime import date, timedelta

import pytest
from sqlalchemy import Engine, select

from bot.channels.channel import SendOutcome, SendResult
from bot.channels.reports import Delivery, DeliveryReport
from bot.channels.send_error import SendError
from bot.channels.sms.segments import is_gsm7
from bot.delivery.delivery_reports import apply_report, note_report
from bot.delivery.message_tables import OutboxRow
from bot.jobs.clock_set_back import due_again
from bot.jobs.fallback import fall_back
from bot.reading.reader import read
from bot.reading.result import QuestionKind
from bot.reading.situation import Situation
from scheduling.records.engine import reading, writing
from tests.bot.conversation.lines import DAY, MILO, NILS, Lines, crew_of_ada

RUNNING = ("telegram", "sms")
DUE = DAY + timedelta(days=3)


@pytest.fixture
def both(engine: Engine) -> Lines:
    """Ada on the chat and by text, texts first, with cells that are due for a look in three days.

    By the clock of Chicago it is five hours earlier than UTC.
    """
    lines = crew_of_ada(Lines(engine))
    lines.give("Ada", "sms", MILO)
    lines.say("Ada", "text first")
    lines.say("Ada", "10 day cells in 1a-c")
    return lines


def mornings(lines: Lines, day: date = DUE) -> tuple[int, int]:
    """How many mornings of a day came by text and by chat."""
    said = f"{day:%a} {day.day} {day:%b}"
    texts = [text for text in lines.texts.to(MILO) if text.startswith(said)]
    return len(texts), len([text for text in lines.chat.to("Ada") if text.startswith(said)])


def reported(
    lines: Lines, delivery: Delivery, send_error: SendError | None = None, carrier_id: str = ""
) -> None:
    """Let the carrier report the last text, as a running program hears it."""
    with writing(lines.engine) as session:
        last = session.scalars(
            select(OutboxRow.carrier_id).where(OutboxRow.channel == "sms").order_by(OutboxRow.id)
        ).all()
        name = carrier_id or last[-1] or ""
        report = DeliveryReport("sms", name, delivery, lines.now, error=send_error)
        if note_report(session, report):
            apply_report(session, report, RUNNING)


def look(lines: Lines, **span: float) -> None:
    lines.now += timedelta(**span)
    fall_back(lines.engine, lines.now, RUNNING)
    lines.deliver()


def delivery_of_last(lines: Lines) -> str | None:
    with reading(lines.engine) as session:
        rows = select(OutboxRow.delivery).where(OutboxRow.channel == "sms").order_by(OutboxRow.id)
        return session.scalars(rows).all()[-1]


def test_a_reminder_comes_on_the_first_channel_alone(both: Lines) -> None:
    both.at(DUE, 14).morning()
    assert mornings(both) == (1, 0)
    for _ in range(20):
        look(both, minutes=20)
    assert mornings(both) == (1, 0)


def test_a_failed_text_comes_by_chat_once(both: Lines) -> None:
    both.at(DUE, 14).morning()
    reported(both, Delivery.FAILED, SendError.CARRIER_FAILED)
    reported(both, Delivery.FAILED, SendError.CARRIER_FAILED)
    for _ in range(3):
        look(both, minutes=1)

    assert mornings(both) == (1, 1)
    assert "eggs" in both.say("Ada", "1a eggs")
    assert "1a eggs" in both.text(MILO, "undo"), "the talk is one, whichever channel it is on"


def test_a_text_that_was_not_delivered_in_the_time_set_comes_by_chat_once(both: Lines) -> None:
    assert "after 30 minutes" in both.say("Ada", "other channel after 30 minutes")
    both.at(DUE, 14).morning()
    look(both, minutes=29)
    assert mornings(both) == (1, 0)
    look(both, minutes=1)
    look(both, minutes=60)

    assert mornings(both) == (1, 1)


def test_a_text_that_was_delivered_in_time_comes_on_no_other_channel(both: Lines) -> None:
    both.say("Ada", "other channel after 30 minutes")
    both.at(DUE, 14).morning()
    reported(both, Delivery.DELIVERED)
    look(both, minutes=31)

    assert mornings(both) == (1, 0)


def test_a_clock_that_was_set_back_does_not_put_the_next_channel_off(both: Lines) -> None:
    both.say("Ada", "other channel after 30 minutes")
    both.at(DUE, 14).morning()
    both.now -= timedelta(days=1)
    assert due_again(both.engine, both.now) > 0
    look(both, minutes=1)

    assert mornings(both) == (1, 1)


def test_a_carrier_that_takes_nothing_is_passed_over_and_then_sends_no_second_copy(
    both: Lines,
) -> None:
    both.say("Ada", "other channel after 1 hour")
    both.texts.failing = lambda _: SendOutcome(SendResult.LATER, error=SendError.CARRIER_FAILED)
    both.at(DUE, 14).morning()
    look(both, minutes=60)
    assert mornings(both) == (0, 1)

    both.texts.failing = lambda _: None
    look(both, minutes=30)
    assert mornings(both) == (0, 1)


def test_reports_move_a_message_only_forward_in_any_order(both: Lines) -> None:
    both.at(DUE, 14).morning()
    reported(both, Delivery.DELIVERED)
    reported(both, Delivery.FAILED, SendError.CARRIER_FAILED)
    reported(both, Delivery.HANDED_OVER)
    look(both, minutes=1)

    assert delivery_of_last(both) == Delivery.DELIVERED
    assert mornings(both) == (1, 0)


def test_a_report_that_overtakes_the_answer_to_its_send_is_heeded(both: Lines) -> None:
    both.at(DUE, 14)
    reported(both, Delivery.FAILED, SendError.CARRIER_FAILED, carrier_id="sms1")
    both.morning()
    look(both, minutes=1)

    assert mornings(both) == (1, 1)


def test_a_part_of_a_long_text_that_fails_fails_the_text(both: Lines) -> None:
    both.texts.failing = lambda _: SendOutcome(SendResult.SENT, carrier_id="a1 a2 a3")
    both.at(DUE, 14).morning()
    reported(both, Delivery.DELIVERED, carrier_id="a1")
    assert delivery_of_last(both) == Delivery.HANDED_OVER
    reported(both, Delivery.FAILED, SendError.CARRIER_FAILED, carrier_id="a2")
    look(both, minutes=1)

    assert mornings(both) == (1, 1)


def test_a_number_that_fails_for_good_takes_nothing_more_and_the_owner_hears_of_it(
    both: Lines,
) -> None:
    both.at(DUE, 14).morning()
    reported(both, Delivery.FAILED, SendError.NO_SUCH_NUMBER)
    look(both, minutes=1)

    assert mornings(both) == (1, 1)
    told = [text for text in both.chat.to("Ada") if "do not reach you" in text]
    assert told == [
        "My sms messages do not reach you: there is no such number. They go by telegram now. "
        "Writing to Yardbell on sms starts them again."
    ]
    both.at(DUE + timedelta(days=1), 14).morning()
    assert mornings(both, DUE + timedelta(days=1)) == (0, 1)


@pytest.fixture
def partner(engine: Engine) -> Lines:
    """Ada on the chat, and Milo who said yes by text."""
    lines = crew_of_ada(Lines(engine))
    lines.say("Ada", "invite Milo 202 555 0123")
    lines.text(MILO, "yes")
    return lines.later(minutes=1)


def test_a_report_under_our_own_key_tells_of_a_send_that_nobody_answered(both: Lines) -> None:
    both.texts.failing = lambda _: SendOutcome(SendResult.UNKNOWN, error=SendError.NO_ANSWER)
    both.at(DUE, 14).morning()
    both.later(minutes=1)
    with writing(both.engine) as session:
        rows = select(OutboxRow).where(OutboxRow.channel == "sms", OutboxRow.purpose == "morning")
        row = session.scalars(rows).one()
        assert row.state == "unknown"
        report = DeliveryReport("sms", "late", Delivery.FAILED, both.now, f"{row.key}/0")
        assert note_report(session, report)
        apply_report(session, report, RUNNING)
    look(both, minutes=1)

    assert mornings(both) == (0, 1)


def test_a_question_that_fails_at_the_carrier_is_told_who_asked(engine: Engine) -> None:
    lines = crew_of_ada(Lines(engine))
    lines.say("Ada", "invite Milo 202 555 0123")
    reported(lines, Delivery.FAILED, SendError.NO_TEXTS)

    told = lines.later(minutes=1).chat.to("Ada")[-1]
    assert told == "My question did not reach Milo: the number takes no text messages."
    assert "not known here" in lines.text(MILO, "yes"), "the asking has ended"


def test_a_number_that_opted_out_at_the_carrier_is_asked_by_nobody(engine: Engine) -> None:
    lines = crew_of_ada(Lines(engine))
    lines.say("Ada", "invite Milo 202 555 0123")
    reported(lines, Delivery.FAILED, SendError.OPTED_OUT)
    lines.say("Bea", "new yard Ridge")

    assert "may not text that number" in lines.say("Bea", "invite 202 555 0123")
    assert len(lines.texts.shown) == 1


STOPPED_BY_CARRIER = (
    "Milo told their carrier to stop my texts, so I send them nothing more. "
    "START from their phone takes it up again."
)


def test_opted_out_by_report_is_as_if_stop_had_come(partner: Lines) -> None:
    reported(partner, Delivery.FAILED, SendError.OPTED_OUT)
    partner.later(minutes=1)

    milo = partner.person("sms", MILO)
    assert milo is not None
    assert milo.stopped
    assert partner.chat.to("Ada").count(STOPPED_BY_CARRIER) == 1
    assert partner.text(MILO, "start").startswith("Started")


def test_opted_out_by_refusal_is_as_if_stop_had_come(partner: Lines) -> None:
    partner.texts.failing = lambda _: SendOutcome(SendResult.UNREACHABLE, error=SendError.OPTED_OUT)
    partner.text(MILO, "due")
    partner.later(minutes=1)

    milo = partner.person("sms", MILO)
    assert milo is not None
    assert milo.stopped
    assert STOPPED_BY_CARRIER in partner.chat.to("Ada")


def test_a_morning_that_failed_on_the_only_channel_is_named_in_the_next(partner: Lines) -> None:
    partner.say("Ada", "10 day cells in 1a-c")
    partner.at(DUE, 14).morning()
    reported(partner, Delivery.FAILED, SendError.CARRIER_FAILED)
    look(partner, minutes=1)
    partner.at(DUE + timedelta(days=1), 14).morning()

    assert "Sat's message did not get through." in partner.texts.to(MILO)[-1]


def test_a_channel_is_first_or_second_as_a_person_says(both: Lines) -> None:
    shown = both.say("Ada", "channels")
    assert shown.startswith("text first, then Telegram, only when it fails.")
    assert is_gsm7(shown)
    assert both.text(MILO, "chat first").startswith("Telegram first, then text")
    assert "2 hours" not in both.say("Ada", "other channel after 2 hours")
    assert "only when it fails" in both.say("Ada", "other channel never")
    both.at(DUE, 14).morning()
    assert mornings(both) == (0, 1)


def test_who_has_one_channel_is_told_how_to_add_another(partner: Lines) -> None:
    assert "by text alone" in partner.text(MILO, "channels")
    assert "no Telegram with me yet" in partner.text(MILO, "telegram first")
    assert partner.text(NILS, "channels").startswith("Yardbell, reminders")


def test_a_wait_longer_than_half_a_day_is_asked_about() -> None:
    (question,) = read("other channel after 13 hours", Situation(today=DAY)).questions
    assert question.kind is QuestionKind.BAD_NUMBER


def test_an_owner_who_stopped_does_not_hear_that_a_partner_is_out_of_reach(partner: Lines) -> None:
    partner.say("Ada", "stop")
    partner.texts.failing = lambda _: SendOutcome(
        SendResult.UNREACHABLE, error=SendError.NO_SUCH_NUMBER
    )
    partner.text(MILO, "due")
    partner.later(minutes=1)
    assert not [text for text in partner.chat.to("Ada") if "do not reach" in text]
