"""Messages in: each stored once under its channel's id, then worked through."""

from datetime import datetime
from enum import StrEnum

from sqlalchemy import select
from sqlalchemy.orm import Session

from bot.channels.channel import MessageIn
from bot.post.tables import InboxRow
from scheduling.records.insert_new import insert_new
from scheduling.records.turns import take_turn


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
        sent_at=message.sent_at,
        received_at=now,
        state=InboxState.WAITING,
    )


def in_turn(session: Session, stored: int) -> InboxRow:
    """Give a stored message once nobody else works through one from the same address."""
    row = session.get_one(InboxRow, stored)
    take_turn(session, f"from:{row.channel}:{row.address}")
    session.refresh(row, with_for_update=True)
    return row


def waiting(session: Session) -> list[int]:
    """Row ids of messages stored but not yet worked through, oldest first."""
    found = select(InboxRow.id).where(InboxRow.state == InboxState.WAITING).order_by(InboxRow.id)
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
    )
