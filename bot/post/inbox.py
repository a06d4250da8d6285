"""Messages in: each stored once under its channel's id, then worked through."""

from datetime import datetime
from enum import StrEnum

from sqlalchemy import select
from sqlalchemy.orm import Session

from bot.channels.channel import MessageIn
from bot.post.tables import InboxRow


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
    same = select(InboxRow).where(
        InboxRow.channel == message.channel, InboxRow.message_id == message.id
    )
    known = session.scalar(same)
    if known is not None:
        return known.id if known.state == InboxState.WAITING else None
    row = InboxRow(
        channel=message.channel,
        message_id=message.id,
        address=message.address,
        text=message.text,
        sender=message.sender,
        corrects=message.corrects,
        sent_at=message.sent_at,
        received_at=now,
        state=InboxState.WAITING,
    )
    session.add(row)
    session.flush()
    return row.id


def waiting(session: Session) -> list[int]:
    """Row ids of messages stored but not yet worked through, oldest first."""
    found = select(InboxRow.id).where(InboxRow.state == InboxState.WAITING).order_by(InboxRow.id)
    return list(session.scalars(found))


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
    )
