"""Messages out that are past their use, withdrawn, lost under way or overdue."""

from collections.abc import Iterator
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import ColumnElement, case, func, or_, select, update
from sqlalchemy.orm import InstrumentedAttribute, Session

from bot.delivery.inbox import InboxState
from bot.delivery.message_tables import IS_CLAIMED, IS_PLANNED, InboxRow, OutboxRow
from bot.delivery.rules import LONGEST_WAIT, REPEAT_WHEN_UNKNOWN, UNASKED, OutboxState, Purpose
from bot.monitoring.counters import Counted, count

LONG = 2 * LONGEST_WAIT
"""How long a message may be overdue before something must be wrong."""


def withdraw(session: Session, person_id: int, now: datetime, *, all_of_it: bool = False) -> None:
    """End what waits for a person who wants no message that was not asked for; or all of it."""
    ended = tuple(Purpose) if all_of_it else UNASKED
    session.execute(
        update(OutboxRow)
        .where(OutboxRow.person_id == person_id, OutboxRow.purpose.in_(ended))
        .where(IS_PLANNED)
        .values(state=OutboxState.EXPIRED, ended_at=now)
    )


def withdraw_at(session: Session, channel: str, address: str, now: datetime) -> None:
    """End all that waits for an address that wants silence."""
    at = (OutboxRow.channel == channel) & (OutboxRow.address == address)
    ended = update(OutboxRow).where(at, IS_PLANNED)
    session.execute(ended.values(state=OutboxState.EXPIRED, ended_at=now))


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


def overdue(session: Session, now: datetime, long: timedelta = LONG) -> Iterator[str]:
    """Name messages in that nobody works through, and messages out that nobody sends."""
    since = now - long
    yield from _lines(
        session,
        "messages in wait to be worked through",
        InboxRow.received_at,
        (InboxRow.state == InboxState.WAITING) & (InboxRow.received_at <= since),
    )
    yield from _lines(
        session,
        "messages out wait to be sent",
        OutboxRow.next_try_at,
        (OutboxRow.state == OutboxState.PLANNED) & (OutboxRow.next_try_at <= since),
    )
    yield from _lines(
        session,
        "messages out were begun to be sent and not ended",
        OutboxRow.lease_until,
        (OutboxRow.state == OutboxState.CLAIMED) & (OutboxRow.lease_until <= since),
    )


def _lines(
    session: Session,
    what: str,
    instant: InstrumentedAttribute[datetime] | InstrumentedAttribute[datetime | None],
    which: ColumnElement[bool],
) -> Iterator[str]:
    count, first = session.execute(select(func.count(), func.min(instant)).where(which)).one()
    if count:
        yield f"{count} {what}, the first since {first:%Y-%m-%d %H:%M} UTC"
