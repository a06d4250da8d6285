"""An answer is claimed in the transaction that plans it, and leaves at once."""

import asyncio
from functools import partial

import pytest
from sqlalchemy import Engine, select
from sqlalchemy.orm import Session

from bot.channels.channel import MessageIn
from bot.channels.console import ConsoleChannel
from bot.desk.desk import Desk
from bot.post.outbox import Claimed
from bot.post.pace import Pace
from bot.post.rules import LEASE, Purpose
from bot.post.sender import Sender
from bot.post.tables import InboxRow, OutboxRow
from scheduling.records.engine import reading
from tests.bot.post.counter import NOW, Counter, after

WRITTEN = MessageIn("phone", "11", "11:1", "hello?", NOW, sender="Ada")
ANSWER = "answer:phone:11:1"
NO_PACES: dict[str, Pace] = {}


def sender_on(engine: Engine) -> Sender:
    return Sender(engine, {"phone": ConsoleChannel()}, lambda: after(3), NO_PACES)


def received(engine: Engine) -> Claimed | None:
    claim = partial(sender_on(engine).claim_for, address="11")
    return Desk(engine).receive(WRITTEN, NOW, claim)


def test_it_is_claimed_under_a_lease_from_the_moment_it_is_known(engine: Engine) -> None:
    claimed = received(engine)

    assert claimed is not None
    assert (claimed.letter.key, claimed.attempt, claimed.send_at) == (ANSWER, 1, after(3))
    with reading(engine) as session:
        row = session.scalars(select(OutboxRow)).one()
        assert (row.state, row.attempts, row.lease_until) == ("claimed", 1, after(3) + LEASE)
        assert session.scalars(select(InboxRow.state)).one() == "done"


def test_an_earlier_answer_to_the_person_goes_before_it(engine: Engine, counter: Counter) -> None:
    counter.plan("earlier", to="11", purpose=Purpose.ANSWER)

    claimed = received(engine)

    assert claimed is not None
    assert claimed.letter.key == "earlier"
    assert counter.state(ANSWER) == "planned"


def test_the_same_message_again_claims_nothing(engine: Engine) -> None:
    received(engine)

    assert received(engine) is None


def test_when_claiming_fails_the_message_is_worked_through_all_the_same(
    engine: Engine, counter: Counter
) -> None:
    def broken(_session: Session) -> Claimed | None:
        raise RuntimeError("nothing can be claimed")

    assert Desk(engine).receive(WRITTEN, NOW, broken) is None

    assert counter.state(ANSWER) == "planned"
    with reading(engine) as session:
        assert session.scalars(select(InboxRow.state)).one() == "done"


def test_a_worker_cancelled_while_it_claims_keeps_nothing(engine: Engine) -> None:
    def stopped(_session: Session) -> Claimed | None:
        raise asyncio.CancelledError

    with pytest.raises(asyncio.CancelledError):
        Desk(engine).receive(WRITTEN, NOW, stopped)

    with reading(engine) as session:
        assert session.scalars(select(InboxRow)).all() == []
