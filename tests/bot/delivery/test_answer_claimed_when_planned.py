"""An answer is claimed in the transaction that plans it, and leaves at once."""

import asyncio
from collections.abc import Mapping
from datetime import timedelta

import pytest
from sqlalchemy import Engine, select
from sqlalchemy.orm import Session

from bot.channels.channel import IncomingMessage
from bot.channels.console import ConsoleChannel
from bot.channels.traits import RateLimit
from bot.conversation.message_handler import MessageHandler
from bot.delivery.claims import Claimed
from bot.delivery.intake import Intake
from bot.delivery.message_tables import InboxRow, OutboxRow, RateLimitRow
from bot.delivery.outbox import Planned
from bot.delivery.rate_limit import next_slot, take_slot
from bot.delivery.rules import LEASE, Purpose
from bot.delivery.sender import Sender
from scheduling.records.engine import reading, writing
from tests.bot.delivery.counter import NOW, Counter, after

WRITTEN = IncomingMessage("phone", "11", "11:1", "hello?", NOW, sender="Ada")
ANSWER = "answer:phone:11:1"
NO_RATE_LIMITS: dict[str, RateLimit] = {}


SLOW = {"phone": RateLimit(timedelta(seconds=0.1), timedelta(seconds=5), "invented")}


def sender_on(engine: Engine, rate_limits: Mapping[str, RateLimit] = NO_RATE_LIMITS) -> Sender:
    return Sender(engine, {"phone": ConsoleChannel()}, lambda: after(3), rate_limits)


def received(
    engine: Engine, rate_limits: Mapping[str, RateLimit] = NO_RATE_LIMITS
) -> Claimed | None:
    return Intake(engine, MessageHandler()).receive(
        WRITTEN, NOW, sender_on(engine, rate_limits).claim_planned
    )


def test_it_is_claimed_under_a_lease_from_the_moment_it_is_known(engine: Engine) -> None:
    claimed = received(engine)

    assert claimed is not None
    assert (claimed.outgoing.key, claimed.attempt, claimed.send_at) == (ANSWER, 1, after(3))
    with reading(engine) as session:
        row = session.scalars(select(OutboxRow)).one()
        assert (row.state, row.attempts, row.lease_until) == ("claimed", 1, after(3) + LEASE)
        assert session.scalars(select(InboxRow.state)).one() == "done"


def test_an_earlier_answer_to_the_person_goes_before_it(engine: Engine, counter: Counter) -> None:
    counter.plan("earlier", to="11", purpose=Purpose.ANSWER)

    assert received(engine) is None

    assert counter.state(ANSWER) == "planned"
    assert counter.claimed_texts(at=3) == ["earlier"]


def test_a_reminder_to_the_person_does_not(engine: Engine, counter: Counter) -> None:
    counter.plan("the morning", to="11", purpose=Purpose.MORNING)

    claimed = received(engine)

    assert claimed is not None
    assert claimed.outgoing.key == ANSWER


def test_it_waits_for_its_turn_and_takes_none_before(engine: Engine, counter: Counter) -> None:
    with writing(engine) as session:
        take_slot(session, "phone", "11", after(2), SLOW["phone"])

    assert received(engine, SLOW) is None

    assert counter.state(ANSWER) == "planned"
    with reading(engine) as session:
        assert next_slot(session, "phone", "11", after(3), None).at == after(7)


def test_a_claim_takes_the_turn_of_the_next(engine: Engine) -> None:
    claimed = received(engine, SLOW)

    assert claimed is not None
    with reading(engine) as session:
        turn = next_slot(session, "phone", "11", after(3), None)
        assert (turn.address_waits, turn.at) == (True, after(8))


def test_behind_an_earlier_answer_no_turn_is_taken(engine: Engine, counter: Counter) -> None:
    counter.plan("earlier", to="11", purpose=Purpose.ANSWER)

    assert received(engine, SLOW) is None

    with reading(engine) as session:
        assert session.scalars(select(RateLimitRow)).all() == []


def test_what_no_running_channel_carries_is_left_alone(engine: Engine, counter: Counter) -> None:
    claim = Sender(engine, {}, lambda: after(3), NO_RATE_LIMITS).claim_planned

    assert Intake(engine, MessageHandler()).receive(WRITTEN, NOW, claim) is None
    assert counter.state(ANSWER) == "planned"


def test_the_same_message_again_claims_nothing(engine: Engine) -> None:
    received(engine)

    assert received(engine) is None


def test_when_claiming_fails_the_message_is_worked_through_all_the_same(
    engine: Engine, counter: Counter
) -> None:
    def broken(_session: Session, _planned: Planned) -> Claimed | None:
        raise RuntimeError("nothing can be claimed")

    assert Intake(engine, MessageHandler()).receive(WRITTEN, NOW, broken) is None

    assert counter.state(ANSWER) == "planned"
    with reading(engine) as session:
        assert session.scalars(select(InboxRow.state)).one() == "done"


def test_a_worker_cancelled_while_it_claims_keeps_nothing(engine: Engine) -> None:
    def stopped(_session: Session, _planned: Planned) -> Claimed | None:
        raise asyncio.CancelledError

    with pytest.raises(asyncio.CancelledError):
        Intake(engine, MessageHandler()).receive(WRITTEN, NOW, stopped)

    with reading(engine) as session:
        assert session.scalars(select(InboxRow)).all() == []
