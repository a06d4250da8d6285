"""Messages in: each stored once under its channel's id, then worked through."""

from datetime import datetime, timedelta
from enum import StrEnum

from sqlalchemy import delete, select
from sqlalchemy.orm import Session

from bot.channels.channel import MessageIn
from bot.post.tables import InboxRow
from scheduling.records.insert_new import insert_new
from scheduling.records.turns import take_turn

KEPT = timedelta(days=2)
"""How long a message in is known again. A carrier repeats one within a day, and may begin to
count anew after a week."""

TAPS_KEPT = timedelta(days=60)
"""How long a tapped button is known again: longer than a morning's buttons are of any use."""


class InboxState(StrEnum):
    """Where a message in stands."""

    WAITING = "waiting"
    DONE = "done"
    FAILED = "failed"
    """Working through it raised an error; it is kept, and the person was told."""


def accept(session: Session, message: MessageIn, now: datetime) -> int | None:
    """Store a message; returns its row's id, or None if it was worked through before.

    A message that is stored but still waits is given again, to be worked through at last.
    """
    known = find(session, message.channel, message.id)
    if known is not None:
        return known.id if known.state == InboxState.WAITING else None
    # Without a number, another worker has just stored it, and works through it.
    return insert_new(
        session,
        InboxRow,
        channel=message.channel,
        message_id=message.id,
        address=message.address,
        text=_kept(message.text),
        sender=_kept(message.sender),
        corrects=message.corrects,
        tap=message.tap,
        sent_at=message.sent_at,
        received_at=now,
        state=InboxState.WAITING,
    )


def in_turn(session: Session, stored: int) -> InboxRow:
    """Give a stored message once nobody else works through one from the same address."""
    row = session.get_one(InboxRow, stored)
    take_turn(session, f"from:{row.channel}:{row.address}")
    if session.get_bind().dialect.name != "sqlite":
        # There a transaction that may write has had its turn from its beginning.
        session.refresh(row, with_for_update=True)
    return row


def waiting(session: Session, before: datetime | None = None) -> list[int]:
    """Row ids of messages stored but not yet worked through, oldest first.

    With ``before`` only those that came before that instant: younger ones are in hand.
    """
    found = select(InboxRow.id).where(InboxRow.state == InboxState.WAITING).order_by(InboxRow.id)
    if before is not None:
        found = found.where(InboxRow.received_at < before)
    return list(session.scalars(found))


def _kept(text: str) -> str:
    # PostgreSQL stores no NUL.
    return text.replace("\0", "")


def message(row: InboxRow) -> MessageIn:
    """The stored message as its channel gave it."""
    return MessageIn(
        channel=row.channel,
        address=row.address,
        id=row.message_id,
        text=row.text,
        sent_at=row.sent_at,
        sender=row.sender,
        corrects=row.corrects,
        tap=row.tap,
    )


def find(session: Session, channel: str, message_id: str) -> InboxRow | None:
    """Find a message in by its channel's id."""
    same = InboxRow.message_id == message_id
    return session.scalar(select(InboxRow).where(InboxRow.channel == channel, same))


def forget_handled(session: Session, now: datetime) -> None:
    """Forget messages that were worked through long ago; a tap longer, since buttons stay."""
    handled = InboxRow.state != InboxState.WAITING
    old = (InboxRow.received_at < now - KEPT) & InboxRow.tap.is_(None)
    session.execute(delete(InboxRow).where(InboxRow.received_at < now - KEPT, handled, old))
    session.execute(delete(InboxRow).where(InboxRow.received_at < now - TAPS_KEPT, handled))
