"""The inbox: each message in is stored once under its channel's id, and worked through once.

Both are one transaction with the answer to it, as a rule.
"""

from dataclasses import replace
from datetime import datetime, timedelta
from enum import StrEnum

from sqlalchemy import ColumnElement, delete, insert, select
from sqlalchemy.orm import Session

from bot.channels.channel import IncomingMessage
from bot.channels.traits import traits_of
from bot.delivery.message_tables import InboxRow, KnownRow
from scheduling.plain_text import seen, storable
from scheduling.records.locks import hold_lock
from scheduling.records.upsert import insert_or_ignore

KEPT = timedelta(days=2)
"""How long a message in is known again. A carrier repeats one within a day, and may begin to
count anew after a week."""

TAPS_KEPT = timedelta(days=60)
"""How long a tapped button is known again: longer than a morning's buttons are of any use."""


class InboxState(StrEnum):
    """Where a message in stands."""

    WAITING = "waiting"
    DONE = "done"
    SET_ASIDE = "set_aside"
    """Working through it raised errors, or the process died of it; the person was told."""


def accept(session: Session, message: IncomingMessage, now: datetime) -> int | None:
    """Store a message; returns its row's id, or None if it was worked through before.

    A message that is stored but still waits is given again, to be worked through at last.
    """
    stored = store(session, kept(message), now, InboxState.WAITING)
    return still_waiting(session, message) if stored is None else stored


def take(session: Session, message: IncomingMessage, now: datetime) -> int | None:
    """Store a message that is worked through in this very transaction; None if it was known."""
    return store(session, message, now, InboxState.DONE)


def still_waiting(session: Session, message: IncomingMessage) -> int | None:
    """Give the row's id of a message that is stored and still waits."""
    known = find(session, message.channel, message.id)
    return known.id if known is not None and known.state == InboxState.WAITING else None


def store(
    session: Session, message: IncomingMessage, now: datetime, state: InboxState
) -> int | None:
    """Store a message in a state; returns its row's id, or None if it was known."""
    stored = insert_or_ignore(
        session,
        InboxRow,
        channel=message.channel,
        message_id=message.id,
        address=message.address,
        text=message.text,
        sender=message.sender,
        corrects=message.corrects,
        tap=message.tap,
        replies_to=message.replies_to,
        album=message.album,
        in_group=message.in_group,
        sent_at=message.sent_at,
        received_at=now,
        state=state,
    )
    # Looked for after it: while it waited for another, that may have let go of the same id.
    if stored is None or not _is_known(session, message):
        return stored
    session.execute(delete(InboxRow).where(InboxRow.id == stored))
    return None


def _is_known(session: Session, message: IncomingMessage) -> bool:
    known = (message.channel, message.id)
    return traits_of(message.channel).keeps_ids and session.get(KnownRow, known) is not None


def wait_for_turn(session: Session, channel: str, address: str) -> None:
    """Wait until nobody works through a message from an address; nobody does until the end."""
    hold_lock(session, f"from:{channel}:{address}")


def in_turn(session: Session, stored: int) -> InboxRow:
    """Give a stored message once nobody else works through one from the same address."""
    row = session.get_one(InboxRow, stored)
    wait_for_turn(session, row.channel, row.address)
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


def kept(message: IncomingMessage) -> IncomingMessage:
    """Give a message as it can be kept, whatever its channel made of it."""
    return replace(
        message,
        address=storable(message.address),
        id=storable(message.id),
        text=storable(message.text),
        sender=seen(message.sender),
        corrects=None if message.corrects is None else storable(message.corrects),
        tap=None if message.tap is None else storable(message.tap),
    )


def message_of(row: InboxRow) -> IncomingMessage:
    """The stored message as its channel gave it."""
    return IncomingMessage(
        channel=row.channel,
        address=row.address,
        id=row.message_id,
        text=row.text,
        sent_at=row.sent_at,
        sender=row.sender,
        corrects=row.corrects,
        tap=row.tap,
        replies_to=row.replies_to,
        album=row.album,
        in_group=row.in_group,
    )


def find(session: Session, channel: str, message_id: str) -> InboxRow | None:
    """Find a message in by its channel's id."""
    same = InboxRow.message_id == message_id
    return session.scalar(select(InboxRow).where(InboxRow.channel == channel, same))


def forget_handled(session: Session, now: datetime) -> None:
    """Forget messages that were worked through long ago; a tap longer, since buttons stay.

    Where a channel asks for it the ids are kept. What was set aside stays for who looks into it.
    """
    handled = InboxRow.state.not_in((InboxState.WAITING, InboxState.SET_ASIDE))
    old = (InboxRow.received_at < now - KEPT) & InboxRow.tap.is_(None)
    _let_go(session, handled & old)
    session.execute(delete(InboxRow).where(InboxRow.received_at < now - TAPS_KEPT, handled))


def forget_from(session: Session, channel: str, address: str) -> None:
    """Forget what an address has written and was worked through."""
    here = (InboxRow.channel == channel) & (InboxRow.address == address)
    _let_go(session, here & (InboxRow.state != InboxState.WAITING))


def _let_go(session: Session, which: ColumnElement[bool]) -> None:
    """Delete messages in, and keep their ids where a channel asks for it."""
    gone = delete(InboxRow).where(which).returning(InboxRow.channel, InboxRow.message_id)
    found = session.execute(gone).all()
    ids = [{"channel": c, "message_id": own} for c, own in found if traits_of(c).keeps_ids]
    if ids:
        session.execute(insert(KnownRow), ids)
