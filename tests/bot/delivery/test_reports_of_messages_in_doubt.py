"""A message in doubt waits to be sent again; what its carrier reports meanwhile settles it."""

from datetime import timedelta

import pytest
from sqlalchemy import Engine, select

from bot.channels.channel import SendOutcome, SendResult
from bot.channels.reports import Delivery, DeliveryReport
from bot.channels.send_error import SendError
from bot.delivery.delivery_reports import apply_report, note_report
from bot.delivery.message_tables import OutboxRow
from bot.jobs.fallback import fall_back
from scheduling.records.engine import reading, writing
from tests.bot.conversation.lines import DAY, MILO, Lines, crew_of_ada

RUNNING = ("telegram", "sms")
DUE = DAY + timedelta(days=3)
IN_DOUBT = SendOutcome(SendResult.UNKNOWN)


@pytest.fixture
def lines(engine: Engine) -> Lines:
    """Ada on the chat and first by text, with cells that are due for a look."""
    lines = crew_of_ada(Lines(engine))
    lines.give("Ada", "sms", MILO)
    lines.say("Ada", "text first")
    lines.say("Ada", "10 day cells in 1a-c")
    return lines


def morning(lines: Lines) -> OutboxRow:
    with reading(lines.engine) as session:
        rows = select(OutboxRow).where(OutboxRow.purpose == "morning", OutboxRow.channel == "sms")
        return session.scalars(rows).one()


def report(lines: Lines, delivery: Delivery, send_error: SendError | None = None) -> None:
    """Let the carrier report the morning under our own key, as it knows no other name yet."""
    key = f"{morning(lines).key}/0"
    told = DeliveryReport("sms", "SM1", delivery, lines.now, key, send_error)
    with writing(lines.engine) as session:
        if note_report(session, told):
            apply_report(session, told, RUNNING)


def in_doubt(lines: Lines) -> Lines:
    lines.texts.failing = lambda _: IN_DOUBT
    lines.at(DUE, 14).morning()
    lines.texts.failing = lambda _: None
    return lines


@pytest.mark.parametrize("delivery", [Delivery.DELIVERED, Delivery.HANDED_OVER])
def test_what_the_carrier_has_is_not_sent_again(lines: Lines, delivery: Delivery) -> None:
    in_doubt(lines)
    assert (morning(lines).state, morning(lines).doubts) == ("planned", 1)
    report(lines, delivery)
    before = len(lines.texts.shown)
    lines.later(minutes=30)

    assert len(lines.texts.shown) == before
    assert (morning(lines).state, morning(lines).delivery) == ("sent", delivery)


def test_what_the_carrier_could_not_deliver_comes_by_chat_and_not_by_text_again(
    lines: Lines,
) -> None:
    in_doubt(lines)
    report(lines, Delivery.FAILED, SendError.CARRIER_FAILED)
    before = len(lines.texts.shown)
    lines.later(minutes=1)
    fall_back(lines.engine, lines.now, RUNNING)
    lines.deliver()

    assert len(lines.texts.shown) == before
    assert lines.chat.to("Ada")[-1].startswith(f"{DUE:%a} {DUE.day}")


def test_a_report_that_comes_before_the_doubt_is_heeded_too(lines: Lines) -> None:
    def reported_and_then_cut_off(_outgoing: object) -> SendOutcome:
        report(lines, Delivery.DELIVERED)
        return IN_DOUBT

    lines.texts.failing = reported_and_then_cut_off
    lines.at(DUE, 14).morning()
    lines.texts.failing = lambda _: None
    before = len(lines.texts.shown)
    lines.later(minutes=30)

    assert len(lines.texts.shown) == before
    assert (morning(lines).state, morning(lines).delivery) == ("sent", "delivered")


def test_without_a_report_it_is_sent_once_more(lines: Lines) -> None:
    in_doubt(lines)
    before = len(lines.texts.shown)
    lines.later(minutes=30)

    assert len(lines.texts.shown) == before + 1
