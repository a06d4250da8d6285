"""Messages out: planned once per purpose, claimed under a lease, marked when sent."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from enum import StrEnum
from typing import Any

from sqlalchemy import exists, or_, select, true, update
from sqlalchemy.orm import Session, aliased

from bot.channels.channel import Button, Letter, SendOutcome, SendResult
from bot.post.tables import OutboxRow


class OutboxState(StrEnum):
    """Where a message out stands; it never goes backwards from an ended state."""

    PLANNED = "planned"
    CLAIMED = "claimed"
    SENT = "sent"
    FAILED = "failed"
    UNKNOWN = "unknown"
    EXPIRED = "expired"


OPEN = (OutboxState.PLANNED, OutboxState.CLAIMED)


class Purpose(StrEnum):
    """What a message out is for."""

    MORNING = "morning"
    ANSWER = "answer"
    NEWS = "news"
    """Something about the crew that the person did not ask for, as a partner who joined."""
    CAUTION = "caution"


REPEAT_WHEN_UNKNOWN = {
    Purpose.MORNING: 1,
    Purpose.ANSWER: 1,
    Purpose.NEWS: 0,
    Purpose.CAUTION: 1,
}
"""How often a message may be sent again when it is not known whether it arrived.

A second copy of a morning or an answer costs a smile; a lost one may cost a queen.
"""

LEASE = timedelta(seconds=60)
FIRST_WAIT = timedelta(seconds=2)
LONGEST_WAIT = timedelta(minutes=10)


@dataclass(frozen=True)
class Recipient:
    """Where a message goes; ``person_id`` is None for somebody who has not joined."""

    channel: str
    address: str
    person_id: int | None = None


@dataclass(frozen=True)
class Claimed:
    """A message this worker may send until its lease ends."""

    id: int
    channel: str
    letter: Letter


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
    if session.scalar(select(OutboxRow.id).where(OutboxRow.key == key)) is not None:
        return False
    session.add(
        OutboxRow(
            key=key,
            purpose=purpose,
            person_id=to.person_id,
            channel=to.channel,
            address=to.address,
            text=letter.text,
            buttons=[[[b.label, b.text] for b in row] for row in letter.buttons],
            state=OutboxState.PLANNED,
            attempts=0,
            planned_at=now,
            next_try_at=now,
            useful_until=useful_until,
            lease_until=None,
            ended_at=None,
            carrier_id=None,
            carrier_said="",
        )
    )
    session.flush()
    return True


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
    earlier = aliased(OutboxRow)
    waits_behind = exists().where(
        earlier.channel == OutboxRow.channel,
        earlier.address == OutboxRow.address,
        earlier.state.in_(OPEN),
        earlier.id < OutboxRow.id,
    )
    may_go = or_(
        (OutboxRow.state == OutboxState.PLANNED) & (OutboxRow.next_try_at <= now),
        (OutboxRow.state == OutboxState.CLAIMED) & (OutboxRow.lease_until <= now),
    )
    to = true() if only_to is None else OutboxRow.address == only_to
    found = (
        select(OutboxRow)
        .where(may_go, OutboxRow.channel.in_(channels), to, ~waits_behind)
        .order_by(OutboxRow.id)
        .limit(most)
        .with_for_update(skip_locked=True)
    )
    return [_take(row, now) for row in session.scalars(found) if not _given_up(row, now)]


def _expire(session: Session, now: datetime) -> None:
    """End what is no longer useful, without sending it."""
    session.execute(
        update(OutboxRow)
        .where(OutboxRow.state == OutboxState.PLANNED, OutboxRow.useful_until < now)
        .values(state=OutboxState.EXPIRED, ended_at=now)
    )


def _given_up(row: OutboxRow, now: datetime) -> bool:
    """Whether a claim that ran out must rest as unknown, since sending again is not allowed."""
    if row.state != OutboxState.CLAIMED:
        return False
    if row.attempts <= REPEAT_WHEN_UNKNOWN[Purpose(row.purpose)]:
        return False
    row.state, row.ended_at = OutboxState.UNKNOWN, now
    return True


def _take(row: OutboxRow, now: datetime) -> Claimed:
    row.state, row.lease_until = OutboxState.CLAIMED, now + LEASE
    row.attempts += 1
    return Claimed(row.id, row.channel, Letter(row.address, row.text, _buttons(row.buttons)))


def _buttons(stored: list[Any]) -> tuple[tuple[Button, ...], ...]:
    return tuple(tuple(Button(label, text) for label, text in row) for row in stored)


def mark(session: Session, claimed_id: int, outcome: SendOutcome, now: datetime) -> None:
    """Write down how a claimed send ended."""
    row = session.get_one(OutboxRow, claimed_id)
    if row.state != OutboxState.CLAIMED:
        return
    row.carrier_said = outcome.said
    row.address = outcome.moved_to or row.address
    if outcome.result is SendResult.LATER:
        _try_again(row, outcome.wait or _back_off(row.attempts), now)
    elif outcome.result is SendResult.UNKNOWN and _may_repeat(row):
        _try_again(row, _back_off(row.attempts), now)
    else:
        row.state, row.ended_at = _ENDED[outcome.result], now
        row.carrier_id = outcome.carrier_id


def _may_repeat(row: OutboxRow) -> bool:
    return row.attempts <= REPEAT_WHEN_UNKNOWN[Purpose(row.purpose)]


def _try_again(row: OutboxRow, wait: timedelta, now: datetime) -> None:
    row.state, row.lease_until, row.next_try_at = OutboxState.PLANNED, None, now + wait


def _back_off(attempts: int) -> timedelta:
    doublings = min(attempts - 1, 12)
    return min(FIRST_WAIT * float(2**doublings), LONGEST_WAIT)


_ENDED = {
    SendResult.SENT: OutboxState.SENT,
    SendResult.REFUSED: OutboxState.FAILED,
    SendResult.UNREACHABLE: OutboxState.FAILED,
    SendResult.UNKNOWN: OutboxState.UNKNOWN,
}
