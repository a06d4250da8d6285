"""Messages out: planned once for each purpose, claimed under a lease, and completed.

The outbox is a queue in the database. Whoever claims a message alone may send it until the lease
ends; the database's triggers refuse every way from state to state but those of ``MAY_BECOME``.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any
from zlib import crc32

from sqlalchemy import Integer, Row, Select, bindparam, func, or_, select, update
from sqlalchemy.orm import Session, aliased

from bot.channels.channel import Button, OutgoingMessage, SendOutcome, SendResult
from bot.channels.traits import RateLimit
from bot.delivery.expired_messages import settle
from bot.delivery.message_tables import IS_PLANNED, OutboxRow, is_open
from bot.delivery.quiet_hours import put_off_quiet
from bot.delivery.rate_limit import hold, take_slot
from bot.delivery.recipients import Recipient
from bot.delivery.rules import (
    LEASE,
    QUEUES,
    REPEAT_WHEN_UNKNOWN,
    OutboxState,
    Purpose,
    SendQueue,
    back_off,
)
from scheduling.records.engine import connection_of
from scheduling.records.instants import Instant
from scheduling.records.tables import table_of
from scheduling.records.upsert import insert_or_ignore

_NO_RATE_LIMITS: Mapping[str, RateLimit] = {}

_TO_SEND = (
    *(OutboxRow.id, OutboxRow.channel, OutboxRow.address, OutboxRow.text, OutboxRow.buttons),
    *(OutboxRow.key, OutboxRow.parts_sent, OutboxRow.attempts),
    *(OutboxRow.queue, OutboxRow.person_id, OutboxRow.purpose),
)


def _first_of_queues_statement() -> Select[Any]:
    """Find messages that may go and that no earlier one of their queue keeps waiting.

    The earliest is looked up row by row: the cost of a join would hang on how fresh the
    database's statistics are.
    """
    each, now = aliased(OutboxRow), bindparam("now", type_=Instant())
    earliest = (
        select(func.min(each.id))
        .where(each.channel == OutboxRow.channel, each.address == OutboxRow.address)
        .where(each.queue == OutboxRow.queue, is_open(each))
        .scalar_subquery()
    )
    return (
        select(*_TO_SEND)
        .where(IS_PLANNED, OutboxRow.next_try_at <= now)
        .where(OutboxRow.channel.in_(bindparam("channels", expanding=True)))
        .where(or_(OutboxRow.useful_until.is_(None), OutboxRow.useful_until > now))
        .where(OutboxRow.id == earliest)
        .order_by(OutboxRow.queue, OutboxRow.next_try_at, OutboxRow.id)
        .limit(bindparam("most", type_=Integer))
        .with_for_update(of=OutboxRow, skip_locked=True)
    )


# Made once: making such a statement anew takes ten times as long as the database takes over it.
_TO_ADDRESS = OutboxRow.address == bindparam("only_to")
_FIRST_OF_QUEUES = _first_of_queues_statement()
_FIRST_TO_ADDRESS = _FIRST_OF_QUEUES.where(_TO_ADDRESS)
_FIRST_IF_THIS = _FIRST_OF_QUEUES.where(OutboxRow.id == bindparam("only"))
_THIS_PLANNED = (OutboxRow.id == bindparam("row")) & IS_PLANNED
_PUT_OFF = update(table_of(OutboxRow)).where(_THIS_PLANNED).values(next_try_at=bindparam("at"))
_CLAIM = (
    update(table_of(OutboxRow))
    .where(_THIS_PLANNED, OutboxRow.attempts == bindparam("attempts_before"))
    .values(
        state=OutboxState.CLAIMED,
        lease_until=bindparam("until"),
        attempts=OutboxRow.attempts + 1,
    )
)

_ENDED = {
    SendResult.SENT: OutboxState.SENT,
    SendResult.REFUSED: OutboxState.FAILED,
    SendResult.UNREACHABLE: OutboxState.FAILED,
    SendResult.UNKNOWN: OutboxState.UNKNOWN,
}


@dataclass(frozen=True)
class Planned:
    """A message that was queued in this transaction, by its row's id."""

    id: int


@dataclass(frozen=True)
class Claimed:
    """A message this worker may send.

    Attributes:
        id: its row.
        channel: the channel it goes over.
        outgoing: what is sent.
        attempt: counts from 1.
        send_at: when its send may begin.
        lease_until: from when on another worker may take it.
        purpose: what it is for.

    """

    id: int
    channel: str
    outgoing: OutgoingMessage
    attempt: int
    send_at: datetime
    lease_until: datetime
    purpose: Purpose


def plan(
    session: Session,
    key: str,
    purpose: Purpose,
    to: Recipient,
    outgoing: OutgoingMessage,
    now: datetime,
    useful_until: datetime | None = None,
    about: date | None = None,
    quiet_until: datetime | None = None,
) -> Planned | None:
    """Queue a message; None if one with this key was queued before.

    Args:
        session: the transaction.
        key: names the purpose: who, what for, and the local date or the message it answers.
        purpose: what it is for.
        to: where it goes.
        outgoing: what is sent.
        now: aware instant.
        useful_until: from when on it is not sent any more.
        about: the person's local date that a morning tells of.
        quiet_until: until when it waits, for somebody whose quiet hours nobody settled.

    """
    queued = insert_or_ignore(
        session,
        OutboxRow,
        key=key,
        purpose=purpose,
        person_id=to.person_id,
        channel=to.channel,
        address=to.address,
        text=outgoing.text,
        buttons=[[[b.label, b.text] for b in row] for row in outgoing.buttons],
        queue=QUEUES[purpose],
        state=OutboxState.PLANNED,
        attempts=0,
        doubts=0,
        parts_sent=0,
        about=about,
        planned_at=now,
        next_try_at=quiet_until or now,
        quiet_until=quiet_until,
        useful_until=useful_until,
        carrier_said="",
    )
    return None if queued is None else Planned(queued)


def claim(
    session: Session,
    channels: Collection[str],
    now: datetime,
    most: int = 50,
    only_to: str | None = None,
    only: int | None = None,
    rate_limits: Mapping[str, RateLimit] = _NO_RATE_LIMITS,
) -> list[Claimed]:
    """Take up to ``most`` messages that may be sent now, at most one of each address's queues.

    One at a time keeps a person's answers in the order of their messages. A message whose address
    had one just now, or for which the carrier asked for a wait, is put off until its turn.

    Args:
        session: the transaction.
        channels: names of the channels that run; messages of others stay.
        now: aware instant.
        most: how many are taken at most.
        only_to: an address, to leave all others' messages alone.
        only: a row's id, to leave every other message alone.
        rate_limits: how fast each carrier lets us send, by channel.

    """
    if only_to is None and only is None:
        # Not for a single answer: the next round of all, a second away, does it too.
        settle(session, now)
    claimed: list[Claimed] = []
    open_channels = set(channels)
    while len(claimed) < most and (
        rows := _first_of_queues(session, open_channels, now, most - len(claimed), only_to, only)
    ):
        for row in put_off_quiet(session, rows, now):
            if row.channel in open_channels:
                slot = take_slot(
                    session, row.channel, row.address, now, rate_limits.get(row.channel)
                )
                if slot.everybody_waits:
                    open_channels.discard(row.channel)
                elif slot.address_waits:
                    put_off = {"row": row.id, "at": slot.at}
                    connection_of(session).execute(_PUT_OFF, put_off)
                else:
                    claimed.append(_take(session, row, slot.at))
    return claimed


def _first_of_queues(
    session: Session,
    channels: set[str],
    now: datetime,
    most: int,
    only_to: str | None,
    only: int | None,
) -> Sequence[Row[Any]]:
    """Find messages that may go and that no earlier one of their queue keeps waiting."""
    found = _FIRST_OF_QUEUES if only_to is None else _FIRST_TO_ADDRESS
    found = found if only is None else _FIRST_IF_THIS
    told = {"now": now, "channels": sorted(channels), "most": most}
    told |= {"only_to": only_to, "only": only}
    return connection_of(session).execute(found, told).all()


def _take(session: Session, row: Row[Any], send_at: datetime) -> Claimed:
    until = send_at + LEASE
    this = {"row": row.id, "attempts_before": row.attempts, "until": until}
    if connection_of(session).execute(_CLAIM, this).rowcount != 1:
        raise RuntimeError(f"the message out {row.id} was claimed in spite of its lock")
    outgoing = OutgoingMessage(
        row.address, row.text, _buttons(row.buttons), row.key, row.parts_sent
    )
    purpose, attempt = Purpose(row.purpose), row.attempts + 1
    return Claimed(row.id, row.channel, outgoing, attempt, send_at, until, purpose)


def _buttons(stored: list[Any]) -> tuple[tuple[Button, ...], ...]:
    return tuple(tuple(Button(label, text) for label, text in row) for row in stored)


def complete(session: Session, claimed: Claimed, outcome: SendOutcome, now: datetime) -> bool:
    """Write down how a claimed send ended; False when that no longer matters.

    When the claim ran out and the message was claimed anew, only that it arrived still counts.
    """
    row = session.get_one(OutboxRow, claimed.id, with_for_update=True)
    if outcome.wait:
        hold(session, claimed.channel, claimed.outgoing.address, now, now + outcome.wait)
    if not _counts(session, row, claimed, outcome):
        return False
    row.carrier_said, row.error = outcome.said, outcome.error
    row.address = outcome.moved_to or row.address
    if outcome.result is SendResult.SENT and outcome.parts_left:
        row.parts_sent, row.doubts = row.parts_sent + 1, 0
        _plan_anew(row, now)
    elif outcome.result is SendResult.LATER:
        _plan_anew(row, now + (_wait(row) if outcome.wait is None else outcome.wait))
    elif outcome.result is SendResult.UNKNOWN and row.doubts < REPEAT_WHEN_UNKNOWN[claimed.purpose]:
        row.doubts += 1
        _plan_anew(row, now + _wait(row))
    else:
        row.state, row.ended_at = _ENDED[outcome.result], now
        row.carrier_id = outcome.carrier_id
    return True


def _counts(session: Session, row: OutboxRow, claimed: Claimed, outcome: SendOutcome) -> bool:
    if row.parts_sent != claimed.outgoing.part:
        return False
    arrived = outcome.result is SendResult.SENT
    if row.state == OutboxState.PLANNED and arrived and row.attempts == claimed.attempt:
        # Its claim ran out and nobody took it since.
        row.state = OutboxState.CLAIMED
        session.flush()
    overtaken = row.attempts != claimed.attempt and not arrived
    return row.state == OutboxState.CLAIMED and not overtaken


def _wait(row: OutboxRow) -> timedelta:
    # Another share for each message and try, and the same in every run.
    spread = crc32(f"{row.key}:{row.attempts}".encode()) / 2**32
    return back_off(SendQueue(row.queue), row.attempts - row.parts_sent, spread)


def _plan_anew(row: OutboxRow, at: datetime) -> None:
    row.state, row.lease_until, row.next_try_at = OutboxState.PLANNED, None, at
