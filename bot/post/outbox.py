"""Messages out: planned once per purpose, claimed under a lease, marked when sent."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import ColumnElement, case, func, or_, select, true, update
from sqlalchemy.orm import Session

from bot.channels.channel import Button, Letter, SendOutcome, SendResult
from bot.post.rules import (
    LEASE,
    OPEN,
    REPEAT_WHEN_UNKNOWN,
    UNASKED,
    OutboxState,
    Purpose,
    back_off,
)
from bot.post.tables import OutboxRow
from bot.watch.tally import Counted, count
from scheduling.records.insert_new import insert_new

__all__ = ["Claimed", "OutboxState", "Purpose", "Recipient", "claim", "mark", "plan", "withdraw"]


_IN_OTHER_HANDS = 100
"""How many messages more than wanted are looked at, since other workers may be claiming some."""


@dataclass(frozen=True)
class Recipient:
    """Where a message goes; ``person_id`` is None for somebody who has not joined."""

    channel: str
    address: str
    person_id: int | None = None


@dataclass(frozen=True)
class Claimed:
    """A message this worker may send until its lease ends; ``attempt`` counts from 1."""

    id: int
    channel: str
    letter: Letter
    attempt: int


def plan(
    session: Session,
    key: str,
    purpose: Purpose,
    to: Recipient,
    letter: Letter,
    now: datetime,
    useful_until: datetime | None = None,
) -> bool:
    """Queue a message; False if one with this key was queued before."""
    queued = insert_new(
        session,
        OutboxRow,
        key=key,
        purpose=purpose,
        person_id=to.person_id,
        channel=to.channel,
        address=to.address,
        text=letter.text,
        buttons=[[[b.label, b.text] for b in row] for row in letter.buttons],
        state=OutboxState.PLANNED,
        attempts=0,
        doubts=0,
        planned_at=now,
        next_try_at=now,
        useful_until=useful_until,
        carrier_said="",
    )
    return queued is not None


def claim(
    session: Session,
    channels: list[str],
    now: datetime,
    most: int = 50,
    only_to: str | None = None,
) -> list[Claimed]:
    """Take up to ``most`` messages that may be sent now, at most one to each address.

    One at a time to an address keeps a person's answers in the order of their messages.
    """
    _expire(session, now)
    _give_up(session, now)
    to = true() if only_to is None else OutboxRow.address == only_to
    first = _first_to_each_address(session, OutboxRow.channel.in_(channels) & to, now, most)
    free = select(OutboxRow).where(OutboxRow.id.in_(first), _may_go(now)).order_by(OutboxRow.id)
    found = free.limit(most).with_for_update(skip_locked=True)
    return [_take(row, now) for row in session.scalars(found)]


def withdraw(session: Session, person_id: int, now: datetime) -> None:
    """End what waits for a person who wants no message that was not asked for."""
    session.execute(
        update(OutboxRow)
        .where(OutboxRow.person_id == person_id, OutboxRow.purpose.in_(UNASKED))
        .where(OutboxRow.state == OutboxState.PLANNED)
        .values(state=OutboxState.EXPIRED, ended_at=now)
    )


def _may_go(now: datetime) -> ColumnElement[bool]:
    return or_(
        (OutboxRow.state == OutboxState.PLANNED) & (OutboxRow.next_try_at <= now),
        _ran_out(now),
    )


def _ran_out(now: datetime) -> ColumnElement[bool]:
    """A claim whose worker was lost: its message may have arrived, or not."""
    return (OutboxRow.state == OutboxState.CLAIMED) & (OutboxRow.lease_until <= now)


def _first_to_each_address(
    session: Session, which: ColumnElement[bool], now: datetime, most: int
) -> list[int]:
    """Find messages that may go and that no earlier one to their address keeps waiting.

    Without a join, whose cost would hang on how fresh the database's statistics are.
    """
    first = func.min(OutboxRow.id)
    first_that_may_go = func.min(case((_may_go(now), OutboxRow.id)))
    found = (
        select(first)
        .where(which, OutboxRow.state.in_(OPEN))
        .group_by(OutboxRow.channel, OutboxRow.address)
        .having(first == first_that_may_go)
        .order_by(first)
        .limit(most + _IN_OTHER_HANDS)
    )
    return list(session.scalars(found))


def _expire(session: Session, now: datetime) -> None:
    """End what is no longer useful, without sending it."""
    late = (OutboxRow.state == OutboxState.PLANNED) & (OutboxRow.useful_until <= now)
    _end(session, late, OutboxState.EXPIRED, now)


def _give_up(session: Session, now: datetime) -> None:
    """Let claims that ran out rest as unknown where sending again is of no use or not allowed."""
    allowed = case(REPEAT_WHEN_UNKNOWN, value=OutboxRow.purpose)
    no_more = or_(OutboxRow.doubts >= allowed, OutboxRow.useful_until <= now)
    _end(session, _ran_out(now) & no_more, OutboxState.UNKNOWN, now)


def _end(session: Session, which: ColumnElement[bool], state: OutboxState, now: datetime) -> None:
    # Rows that another worker has in hand are left to it: two that waited for each other's rows
    # would wait in vain.
    free = select(OutboxRow.id).where(which).with_for_update(skip_locked=True)
    ended = list(session.scalars(free))
    if ended:
        if state is OutboxState.EXPIRED:
            count(Counted.EXPIRED, len(ended))
        ending = update(OutboxRow).where(OutboxRow.id.in_(ended))
        session.execute(ending.values(state=state, ended_at=now))


def _take(row: OutboxRow, now: datetime) -> Claimed:
    if row.state == OutboxState.CLAIMED:
        row.doubts += 1
    row.state, row.lease_until = OutboxState.CLAIMED, now + LEASE
    row.attempts += 1
    letter = Letter(row.address, row.text, _buttons(row.buttons))
    return Claimed(row.id, row.channel, letter, row.attempts)


def _buttons(stored: list[Any]) -> tuple[tuple[Button, ...], ...]:
    return tuple(tuple(Button(label, text) for label, text in row) for row in stored)


def mark(session: Session, claimed: Claimed, outcome: SendOutcome, now: datetime) -> None:
    """Write down how a claimed send ended.

    When the claim ran out and the message was claimed anew, only that it arrived still counts.
    """
    row = session.get_one(OutboxRow, claimed.id, with_for_update=True)
    overtaken = row.attempts != claimed.attempt and outcome.result is not SendResult.SENT
    if row.state != OutboxState.CLAIMED or overtaken:
        return
    row.carrier_said = outcome.said
    row.address = outcome.moved_to or row.address
    if outcome.result is SendResult.LATER:
        _try_again(row, outcome.wait or back_off(row.attempts), now)
    elif outcome.result is SendResult.UNKNOWN and _may_repeat(row):
        row.doubts += 1
        _try_again(row, back_off(row.attempts), now)
    else:
        row.state, row.ended_at = _ENDED[outcome.result], now
        row.carrier_id = outcome.carrier_id


def _may_repeat(row: OutboxRow) -> bool:
    return row.doubts < REPEAT_WHEN_UNKNOWN[Purpose(row.purpose)]


def _try_again(row: OutboxRow, wait: timedelta, now: datetime) -> None:
    row.state, row.lease_until, row.next_try_at = OutboxState.PLANNED, None, now + wait


_ENDED = {
    SendResult.SENT: OutboxState.SENT,
    SendResult.REFUSED: OutboxState.FAILED,
    SendResult.UNREACHABLE: OutboxState.FAILED,
    SendResult.UNKNOWN: OutboxState.UNKNOWN,
}
