"""Messages in doubt are named, lost answers counted, and what met a dead address goes onward."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from sqlalchemy import Engine, select

from bot.channels.channel import Button, IncomingMessage, OutgoingMessage, SendOutcome, SendResult
from bot.channels.send_error import SendError
from bot.conversation.message_handler import MessageHandler
from bot.delivery import outbox
from bot.delivery.claims import claim
from bot.delivery.intake import Intake
from bot.delivery.message_tables import OutboxRow
from bot.delivery.outbox import Recipient, complete
from bot.delivery.outcomes import apply_outcome
from bot.delivery.rules import Purpose
from bot.jobs.mornings import queue_mornings
from scheduling.records.engine import reading, writing
from tests.bot.jobs.crews import DAY, Member, instant, keeper

TUESDAY, NEXT_DAY = DAY - timedelta(days=1), DAY + timedelta(days=1)
BLOCKED = SendOutcome(SendResult.UNREACHABLE, error=SendError.BLOCKED)
SENT, IN_DOUBT = SendOutcome(SendResult.SENT), SendOutcome(SendResult.UNKNOWN)
REFUSED = SendOutcome(SendResult.REFUSED, error=SendError.ODD_ANSWER)


def send(ada: Member, day: date, hour: int, outcome: SendOutcome, channel: str = "phone") -> None:
    """Send all that waits for a channel at an hour."""
    at = instant(day, hour)
    with writing(ada.engine) as session:
        while some := claim(session, [channel], at):
            for claimed in some:
                row = complete(session, claimed, outcome, at)
                assert row is not None
                apply_outcome(session, row, claimed, outcome, at)


def rows(ada: Member) -> list[OutboxRow]:
    mine = select(OutboxRow).where(OutboxRow.person_id == ada.person_id)
    with reading(ada.engine) as session:
        return list(session.scalars(mine.order_by(OutboxRow.id)))


def test_a_morning_of_which_nobody_knows_is_named_as_such_in_the_next(engine: Engine) -> None:
    ada = keeper(engine, next_at=instant(TUESDAY, 6, 30))
    queue_mornings(engine, instant(TUESDAY, 7))
    for hour in (8, 9):
        send(ada, TUESDAY, hour, IN_DOUBT)
    assert [row.state for row in rows(ada)] == ["unknown"]
    queue_mornings(engine, instant(DAY, 7))
    send(ada, DAY, 7, SENT)
    queue_mornings(engine, instant(NEXT_DAY, 7))

    _, wednesday, thursday = ada.mornings()
    assert wednesday.startswith("Tue's message may not have come through.\nWed 12 May")
    assert thursday.startswith("Thu 13 May")


def test_a_morning_lost_in_a_crash_on_its_last_try_is_named_too(engine: Engine) -> None:
    ada = keeper(engine, next_at=instant(TUESDAY, 6, 30))
    queue_mornings(engine, instant(TUESDAY, 7))
    for hour in (8, 9):
        with writing(engine) as session:
            assert claim(session, ["phone"], instant(TUESDAY, hour))
    queue_mornings(engine, instant(DAY, 7))
    send(ada, DAY, 7, SENT)

    assert [row.state for row in rows(ada)] == ["unknown", "sent"]
    assert ada.mornings()[-1].startswith("Tue's message may not have come through.")


@pytest.mark.parametrize(
    ("lost", "named"),
    [(1, "An answer to you did not get through."), (2, "2 answers to you did not get through.")],
)
def test_answers_that_were_refused_are_counted_in_the_next_morning(
    engine: Engine, lost: int, named: str
) -> None:
    ada = keeper(engine)
    for number in range(lost):
        at = instant(TUESDAY, 12 + number)
        Intake(engine, MessageHandler()).receive(
            IncomingMessage("phone", "11", str(number), "due", at, "Ada"), at
        )
        send(ada, TUESDAY, 12 + number, REFUSED)
    queue_mornings(engine, instant(DAY, 7))
    send(ada, DAY, 7, SENT)
    queue_mornings(engine, instant(NEXT_DAY, 7))

    today, after = ada.mornings()
    assert today.startswith(named)
    assert after.startswith("Thu 13 May")


@pytest.mark.parametrize("purpose", [Purpose.ANSWER, Purpose.CAUTION, Purpose.NEWS])
def test_what_met_a_dead_address_goes_on_over_the_next_channel_as_it_was(
    engine: Engine, purpose: Purpose
) -> None:
    ada = keeper(engine)
    ada.add_address("sms", "7")
    outgoing = OutgoingMessage("11", "Noted: 4b eggs.", ((Button("undo", "undo"),),))
    until = instant(NEXT_DAY, 7)
    with writing(engine) as session:
        to = Recipient("phone", "11", ada.person_id)
        outbox.plan(session, "k", purpose, to, outgoing, instant(DAY, 7), until)
    send(ada, DAY, 7, BLOCKED)

    with writing(engine) as session:
        taken = claim(session, ["sms"], instant(DAY, 8))
    first = taken[0].outgoing
    assert replace(first, key="") == replace(outgoing, address="7")
    (copied,) = [row for row in rows(ada) if row.channel == "sms" and row.key == "k>sms"]
    assert (copied.purpose, copied.useful_until) == (purpose, until)
    assert [row.state for row in rows(ada) if row.key == "k"] == ["failed"]


def test_a_copy_that_meets_a_dead_address_too_goes_no_further_round(engine: Engine) -> None:
    ada = keeper(engine)
    ada.add_address("sms", "7")
    with writing(engine) as session:
        to, outgoing = (
            Recipient("phone", "11", ada.person_id),
            OutgoingMessage("11", "Noted: 4b eggs."),
        )
        outbox.plan(session, "k", Purpose.ANSWER, to, outgoing, instant(DAY, 7))
    send(ada, DAY, 7, BLOCKED)
    send(ada, DAY, 8, BLOCKED, "sms")
    send(ada, DAY, 9, BLOCKED)

    assert {row.state for row in rows(ada)} == {"failed"}
    assert [row.key for row in rows(ada) if row.purpose == "answer"] == ["k", "k>sms"]
