"""Messages that stand still, though somebody should have moved them."""

from collections.abc import Iterator
from datetime import datetime, timedelta

from sqlalchemy import ColumnElement, func, select
from sqlalchemy.orm import InstrumentedAttribute, Session

from bot.post.inbox import InboxState
from bot.post.rules import LONGEST_WAIT, OutboxState
from bot.post.tables import InboxRow, OutboxRow

LONG = 2 * LONGEST_WAIT
"""How long a message may be overdue before something must be wrong."""


def stuck(session: Session, now: datetime, long: timedelta = LONG) -> Iterator[str]:
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
