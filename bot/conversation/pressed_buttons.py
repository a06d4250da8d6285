"""A button that was pressed is taken off its message, and what was noted stands there instead."""

from datetime import timedelta

from sqlalchemy import select
from sqlalchemy.orm import Session

from bot.channels.channel import IncomingMessage, OutgoingMessage
from bot.channels.traits import traits_of
from bot.conversation.quoted import sent_as
from bot.conversation.turn import Turn
from bot.delivery.claims import buttons_of_row
from bot.delivery.message_tables import OutboxRow
from bot.delivery.outbox import Recipient, plan
from bot.delivery.rules import Purpose

_USEFUL = timedelta(hours=1)
"""A button that could not be taken off for this long stays; pressed again it says so."""


def take_button_off(turn: Turn, message: IncomingMessage, noted: str) -> None:
    """Queue the message of the pressed button as it is to stand now, where a channel can edit.

    The whole row goes: its buttons are other answers to the same question.

    Args:
        turn: that of the pressed button.
        message: the button as it was pressed, before anything was read into it.
        noted: what stands in its place; "" leaves all as it is.
    """
    if message.tap is None or message.replies_to is None or not noted:
        return
    if not traits_of(message.channel).edits:
        return
    shown = _as_shown(turn.session, message.channel, message.address, message.replies_to)
    if shown is None:
        return
    rows = buttons_of_row(shown.buttons)
    left = tuple(row for row in rows if message.text not in {button.text for button in row})
    edited = OutgoingMessage(
        message.address, f"{shown.text}\n{noted}", left, edits=message.replies_to
    )
    to = Recipient(message.channel, message.address, turn.person.id)
    key = f"edit:{message.channel}:{message.id}"
    plan(turn.session, key, Purpose.EDIT, to, edited, turn.now, turn.now + _USEFUL)


def _as_shown(session: Session, channel: str, address: str, carrier_id: str) -> OutboxRow | None:
    """Give a message as it stands by its last edit."""
    edits = (OutboxRow.channel == channel) & (OutboxRow.edits == carrier_id)
    newest = select(OutboxRow).where(edits, OutboxRow.address == address)
    edited = session.scalars(newest.order_by(OutboxRow.id.desc()).limit(1)).first()
    return edited or sent_as(session, channel, address, carrier_id)
