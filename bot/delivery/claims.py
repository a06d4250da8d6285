"""Claims: who takes a message out under a lease alone may send it, until the lease ends.

Claiming goes by the rate limits and the quiet hours; what is past its use or was lost under way is
settled first. Each time anew it asks whether the person still wants the message and is still at its
address: since it was planned, or while a send of it was under way, they may have stopped or gone.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import (
    ColumnElement,
    Integer,
    Row,
    Select,
    bindparam,
    case,
    exists,
    func,
    or_,
    select,
    update,
)
from sqlalchemy.orm import Session, aliased

from bot.channels.channel import Button, Document, OutgoingMessage
from bot.channels.traits import RateLimit
from bot.delivery.message_tables import IS_CLAIMED, IS_PLANNED, OutboxRow, is_open
from bot.delivery.quiet_hours import put_off_quiet
from bot.delivery.rate_limit import SendSlot, ahead_of, take_slot
from bot.delivery.rules import (
    LEASE,
    REPEAT_WHEN_UNKNOWN,
    UNASKED,
    OutboxState,
    Purpose,
    SendQueue,
)
from bot.monitoring import Counted, count
from scheduling.records.engine import connection_of
from scheduling.records.instants import Instant
from scheduling.records.tables import AddressRow, PersonRow, table_of

_NO_RATE_LIMITS: Mapping[str, RateLimit] = {}

_TO_SEND = (
    *(OutboxRow.id, OutboxRow.channel, OutboxRow.address, OutboxRow.text, OutboxRow.buttons),
    *(OutboxRow.key, OutboxRow.parts_sent, OutboxRow.attempts, OutboxRow.document),
    *(OutboxRow.queue, OutboxRow.person_id, OutboxRow.purpose, OutboxRow.edits),
)

_AT_ADDRESS = (
    (AddressRow.person_id == OutboxRow.person_id)
    & (AddressRow.channel == OutboxRow.channel)
    & (AddressRow.address == OutboxRow.address)
)
_HAS_STOPPED = exists().where(PersonRow.id == OutboxRow.person_id, PersonRow.stopped.is_(True))
_IS_THERE = exists().where(_AT_ADDRESS)
_IS_GONE = exists().where(_AT_ADDRESS, AddressRow.unreachable_since.is_not(None))


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
        select(
            *_TO_SEND,
            _HAS_STOPPED.label("has_stopped"),
            _IS_THERE.label("is_there"),
            _IS_GONE.label("is_gone"),
        )
        .where(IS_PLANNED, OutboxRow.next_try_at <= now)
        .where(OutboxRow.channel.in_(bindparam("channels", expanding=True)))
        .where(or_(OutboxRow.useful_until.is_(None), OutboxRow.useful_until > now))
        .where(OutboxRow.id == earliest)
        .where(OutboxRow.id.not_in(bindparam("but_of", expanding=True)))
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
_WITHDRAW = (
    update(table_of(OutboxRow))
    .where(_THIS_PLANNED)
    .values(state=OutboxState.EXPIRED, ended_at=bindparam("now"))
)
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
        is_gone: since it was tried last, its address has been found to take no more messages.
    """

    id: int
    channel: str
    outgoing: OutgoingMessage
    attempt: int
    send_at: datetime
    lease_until: datetime
    purpose: Purpose
    is_gone: bool = False


def claim(
    session: Session,
    channels: Collection[str],
    now: datetime,
    most: int = 50,
    only_to: str | None = None,
    only: int | None = None,
    rate_limits: Mapping[str, RateLimit] = _NO_RATE_LIMITS,
    but_of: Collection[int] = (),
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
        but_of: rows that this process has in hand: it knows that they are not lost, however long
            ago their lease has ended.
    """
    if only_to is None and only is None:
        # Not for a single answer: the next round of all, a second away, does it too.
        settle(session, now)
    claimed: list[Claimed] = []
    open_channels = set(channels)
    while len(claimed) < most and (
        rows := _first_of_queues(
            session, open_channels, now, most - len(claimed), only_to, only, but_of
        )
    ):
        for row in put_off_quiet(session, _wanted(session, rows, now), now):
            if row.channel in open_channels:
                slot = _slot_of(session, row, now, rate_limits.get(row.channel))
                if slot.everybody_waits:
                    open_channels.discard(row.channel)
                elif slot.address_waits:
                    put_off = {"row": row.id, "at": slot.at}
                    connection_of(session).execute(_PUT_OFF, put_off)
                else:
                    claimed.append(_take(session, row, slot.at))
    return claimed


def _wanted(session: Session, rows: Sequence[Row[Any]], now: datetime) -> list[Row[Any]]:
    """End what its person does not want any more, or is not there to get; gives the rest."""
    unwanted = {row.id for row in rows if _is_unwanted(row)}
    if unwanted:
        ended = [{"row": row, "now": now} for row in unwanted]
        connection_of(session).execute(_WITHDRAW, ended)
    return [row for row in rows if row.id not in unwanted]


def _is_unwanted(row: Row[Any]) -> bool:
    # Whoever is answered wrote from that address just now.
    if row.person_id is None or row.queue == SendQueue.ANSWERS:
        return False
    return not row.is_there or (row.has_stopped and row.purpose in UNASKED)


def _slot_of(
    session: Session, row: Row[Any], now: datetime, rate_limit: RateLimit | None
) -> SendSlot:
    ahead = ahead_of(SendQueue(row.queue), rate_limit)
    return take_slot(session, row.channel, row.address, now, rate_limit, ahead)


def _first_of_queues(
    session: Session,
    channels: set[str],
    now: datetime,
    most: int,
    only_to: str | None,
    only: int | None,
    but_of: Collection[int],
) -> Sequence[Row[Any]]:
    """Find messages that may go and that no earlier one of their queue keeps waiting."""
    found = _FIRST_OF_QUEUES if only_to is None else _FIRST_TO_ADDRESS
    found = found if only is None else _FIRST_IF_THIS
    told = {"now": now, "channels": sorted(channels), "most": most}
    told |= {"only_to": only_to, "only": only, "but_of": list(but_of)}
    return connection_of(session).execute(found, told).all()


def _take(session: Session, row: Row[Any], send_at: datetime) -> Claimed:
    until = send_at + LEASE
    this = {"row": row.id, "attempts_before": row.attempts, "until": until}
    if connection_of(session).execute(_CLAIM, this).rowcount != 1:
        raise RuntimeError(f"the message out {row.id} was claimed in spite of its lock")
    document = None if row.document is None else Document(**row.document)
    outgoing = OutgoingMessage(
        row.address,
        row.text,
        buttons_of_row(row.buttons),
        row.key,
        row.parts_sent,
        document,
        row.edits,
    )
    purpose, attempt = Purpose(row.purpose), row.attempts + 1
    # One that is tried for the first time asks the carrier itself.
    is_gone = row.is_gone and row.attempts > 0 and row.queue != SendQueue.ANSWERS
    return Claimed(row.id, row.channel, outgoing, attempt, send_at, until, purpose, is_gone)


def buttons_of_row(stored: list[Any]) -> tuple[tuple[Button, ...], ...]:
    """Give stored rows of buttons back."""
    return tuple(tuple(Button(label, text) for label, text in row) for row in stored)


def settle(session: Session, now: datetime) -> None:
    """Give what is past its use or was lost under way the state that it has by now."""
    _expire(session, now)
    _settle_lost_claims(session, now)


def _expire(session: Session, now: datetime) -> None:
    _change(
        session,
        IS_PLANNED & (OutboxRow.useful_until <= now),
        state=OutboxState.EXPIRED,
        ended_at=now,
    )


def _settle_lost_claims(session: Session, now: datetime) -> None:
    """Plan anew what a lost worker may have sent; or let it rest as unknown.

    It rests where sending again is of no use, or is not allowed.
    """
    ran_out = IS_CLAIMED & (OutboxRow.lease_until <= now)
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
