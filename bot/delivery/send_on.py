"""A message that did not arrive is sent on: once, to the same person over another channel."""

from datetime import datetime

from sqlalchemy.orm import Session

from bot.channels.channel import OutgoingMessage
from bot.delivery.message_tables import OutboxRow
from bot.delivery.outbox import plan
from bot.delivery.recipients import Recipient
from bot.delivery.rules import Purpose

_MARK = ">"
"""Stands in the key of what was sent on, before the channel that it went to."""


def was_sent_on(row: OutboxRow) -> bool:
    """Tell whether a message is one that was sent on; it goes no further.

    Otherwise two channels that both fail would play ball with it.
    """
    return _MARK in row.key and row.key.rpartition(_MARK)[2] == row.channel


def send_on(
    session: Session, row: OutboxRow, to: Recipient, outgoing: OutgoingMessage, now: datetime
) -> None:
    """Queue a message once more, for another address of its person.

    Args:
        session: the transaction.
        row: the message that did not arrive.
        to: where it goes now.
        outgoing: what is sent there.
        now: aware instant.

    """
    key = f"{row.key}{_MARK}{to.channel}"
    plan(session, key, Purpose(row.purpose), to, outgoing, now, row.useful_until, row.about)
