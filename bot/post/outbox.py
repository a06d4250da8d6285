"""Messages out: planned once per purpose, and claimed under a lease."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import (
    ColumnElement,
    Integer,
    Row,
    Select,
    bindparam,
    case,
    func,
    literal_column,
    or_,
    select,
    update,
)
from sqlalchemy.orm import Session, aliased

from bot.channels.channel import Button, OutgoingMessage
from bot.post.quiet import put_off_quiet
from bot.post.rate_limit import RateLimit, take_turn_to_send
from bot.post.rules import (
    LEASE,
    QUEUES,
    REPEAT_WHEN_UNKNOWN,
    UNASKED,
    OutboxState,
    Purpose,
    SendQueue,
)
from bot.post.tables import OutboxRow
from bot.watch.counters import Counted, count
from scheduling.records.connection import connection_of
from scheduling.records.instants import Instant
from scheduling.records.tables import table_of
from scheduling.records.upsert import insert_or_ignore

__all__ = [
    "IS_OPEN",
    "Claimed",
    "OutboxState",
    "Planned",
    "Purpose",
    "Recipient",
    "claim",
    "next_try",
    "plan",
    "settle",
    "withdraw",
    "withdraw_at",
]

# Written into the statement and not passed as values, so that the partial indexes serve.
_IS_PLANNED = OutboxRow.state == literal_column("'planned'")
_IS_CLAIMED = OutboxRow.state == literal_column("'claimed'")
IS_OPEN: tuple[ColumnElement[str], ...] = (
    literal_column("'planned'"),
    literal_column("'claimed'"),
)
"""The states of a message that others of its queue wait behind."""

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
        .where(each.queue == OutboxRow.queue, each.state.in_(IS_OPEN))
        .scalar_subquery()
    )
    return (
        select(*_TO_SEND)
        .where(_IS_PLANNED, OutboxRow.next_try_at <= now)
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
_THIS_PLANNED = (OutboxRow.id == bindparam("row")) & _IS_PLANNED
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
_NEXT_TRY = select(func.min(OutboxRow.next_try_at)).where(
    _IS_PLANNED, _TO_ADDRESS, OutboxRow.queue == literal_column(str(int(SendQueue.ANSWERS)))
)


@dataclass(frozen=True)
class Recipient:
    """Where a message goes; ``person_id`` is None for somebody who has not joined."""

    channel: str
    address: str
    person_id: int | None = None


@dataclass(frozen=True)
class Planned:
    """A message that was queued just now: its row, its channel, what is sent and what for."""

    id: int
    channel: str
    letter: OutgoingMessage
    purpose: Purpose


@dataclass(frozen=True)
class Claimed:
    """A message this worker may send.

    Attributes:
        id: its row.
        channel: the channel it goes over.
        letter: what is sent.
        attempt: counts from 1.
        send_at: when its send may begin.
        lease_until: from when on another worker may take it.
        purpose: what it is for.

    """

    id: int
    channel: str
    letter: OutgoingMessage
    attempt: int
    send_at: datetime
    lease_until: datetime
    purpose: Purpose


def plan(
    session: Session,
    key: str,
    purpose: Purpose,
    to: Recipient,
    letter: OutgoingMessage,
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
        letter: what is sent.
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
        text=letter.text,
        buttons=[[[b.label, b.text] for b in row] for row in letter.buttons],
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
    if queued is None:
        return None
    return Planned(
        queued, to.channel, OutgoingMessage(to.address, letter.text, letter.buttons, key), purpose
    )


def claim(
    session: Session,
    channels: list[str],
    now: datetime,
    most: int = 50,
    only_to: str | None = None,
    rate_limits: Mapping[str, RateLimit] = _NO_RATE_LIMITS,
) -> list[Claimed]:
    """Take up to ``most`` messages that may be sent now, at most one of each address's queues.

    One at a time keeps a person's answers in the order of their messages. A message whose address
    had one just now, or for which the carrier asked for a wait, is put off until its turn.
    """
    if only_to is None:
        # Not for a single answer: the next round of all, a second away, does it too.
        settle(session, now)
    claimed: list[Claimed] = []
    open_channels = set(channels)
    while len(claimed) < most and (
        rows := _first_of_queues(session, open_channels, now, most - len(claimed), only_to)
    ):
        for row in put_off_quiet(session, rows, now):
            if row.channel in open_channels:
                turn = take_turn_to_send(
                    session, row.channel, row.address, now, rate_limits.get(row.channel)
                )
                if turn.everybody_waits:
                    open_channels.discard(row.channel)
                elif turn.address_waits:
                    put_off = {"row": row.id, "at": turn.at}
                    connection_of(session).execute(_PUT_OFF, put_off)
                else:
                    claimed.append(_take(session, row, turn.at))
    return claimed


def next_try(session: Session, only_to: str) -> datetime | None:
    """When the next answer to an address may be tried; None if none is planned."""
    found: datetime | None = connection_of(session).scalar(_NEXT_TRY, {"only_to": only_to})
    return found


def withdraw(session: Session, person_id: int, now: datetime, *, all_of_it: bool = False) -> None:
    """End what waits for a person who wants no message that was not asked for; or all of it."""
    ended = tuple(Purpose) if all_of_it else UNASKED
    session.execute(
        update(OutboxRow)
        .where(OutboxRow.person_id == person_id, OutboxRow.purpose.in_(ended))
        .where(_IS_PLANNED)
        .values(state=OutboxState.EXPIRED, ended_at=now)
    )


def withdraw_at(session: Session, channel: str, address: str, now: datetime) -> None:
    """End all that waits for an address that wants silence."""
    at = (OutboxRow.channel == channel) & (OutboxRow.address == address)
    ended = update(OutboxRow).where(at, _IS_PLANNED)
    session.execute(ended.values(state=OutboxState.EXPIRED, ended_at=now))


def _first_of_queues(
    session: Session, channels: set[str], now: datetime, most: int, only_to: str | None
) -> Sequence[Row[Any]]:
    """Find messages that may go and that no earlier one of their queue keeps waiting."""
    found = _FIRST_OF_QUEUES if only_to is None else _FIRST_TO_ADDRESS
    told = {"now": now, "channels": sorted(channels), "most": most, "only_to": only_to}
    return connection_of(session).execute(found, told).all()


def settle(session: Session, now: datetime) -> None:
    """Give what is past its use or was lost under way the state that it has by now."""
    _expire(session, now)
    _settle_lost_claims(session, now)


def _expire(session: Session, now: datetime) -> None:
    _change(
        session,
        _IS_PLANNED & (OutboxRow.useful_until <= now),
        state=OutboxState.EXPIRED,
        ended_at=now,
    )


def _settle_lost_claims(session: Session, now: datetime) -> None:
    """Plan anew what a lost worker may have sent; or let it rest as unknown.

    It rests where sending again is of no use, or is not allowed.
    """
    ran_out = _IS_CLAIMED & (OutboxRow.lease_until <= now)
    allowed = case(REPEAT_WHEN_UNKNOWN, value=OutboxRow.purpose)
    no_more = or_(OutboxRow.doubts >= allowed, OutboxRow.useful_until <= now)
    _change(session, ran_out & no_more, state=OutboxState.UNKNOWN, ended_at=now)
    _change(
        session,
        ran_out,
        state=OutboxState.PLANNED,
        doubts=OutboxRow.doubts + 1,
        lease_until=None,
        next_try_at=now,
    )


def _change(session: Session, which: ColumnElement[bool], **values: Any) -> None:
    # Rows that another worker has in hand are left to it: two that waited for each other's rows
    # would wait in vain.
    free = select(OutboxRow.id).where(which).with_for_update(skip_locked=True)
    found = list(session.scalars(free))
    if found and values["state"] is OutboxState.EXPIRED:
        count(Counted.EXPIRED, len(found))
    for start in range(0, len(found), 1000):
        some = OutboxRow.id.in_(found[start : start + 1000])
        session.execute(update(OutboxRow).where(some).values(**values))


def _take(session: Session, row: Row[Any], send_at: datetime) -> Claimed:
    until = send_at + LEASE
    this = {"row": row.id, "attempts_before": row.attempts, "until": until}
    if connection_of(session).execute(_CLAIM, this).rowcount != 1:
        raise RuntimeError(f"the message out {row.id} was claimed in spite of its lock")
    letter = OutgoingMessage(row.address, row.text, _buttons(row.buttons), row.key, row.parts_sent)
    purpose, attempt = Purpose(row.purpose), row.attempts + 1
    return Claimed(row.id, row.channel, letter, attempt, send_at, until, purpose)


def _buttons(stored: list[Any]) -> tuple[tuple[Button, ...], ...]:
    return tuple(tuple(Button(label, text) for label, text in row) for row in stored)
