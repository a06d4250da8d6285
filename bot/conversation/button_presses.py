"""Buttons pressed more than once: one entry, unless what the press recorded was taken back."""

from dataclasses import replace
from datetime import datetime, timedelta
from itertools import count

from sqlalchemy.orm import Session

from bot.channels.channel import IncomingMessage
from bot.delivery import inbox
from bot.delivery.inbox import InboxState
from bot.delivery.message_tables import InboxRow
from scheduling.entries import struck
from scheduling.entry_kinds import EntryKind
from scheduling.records.addresses import find_people
from scheduling.records.crew_records import CrewRecords

TAPPED_TWICE = timedelta(seconds=10)
"""Two taps within this time are one, even on a button that only asks."""


def as_pressed(session: Session, message: IncomingMessage, now: datetime) -> IncomingMessage:
    """Give a tap the id under which it is known or new.

    A button whose entries all were taken back counts anew, and so does one that recorded nothing
    and was tapped a while ago; each time under a further id. The carrier's repetition of a tap is
    that tap.
    """
    tapped = message.id
    for number in count(2):
        known = inbox.find(session, message.channel, message.id)
        if known is None or known.tap == message.tap or not _spent(session, known, now):
            break
        message = replace(message, id=f"{tapped}#{number}")
    return message


def _spent(session: Session, known: InboxRow, now: datetime) -> bool:
    if known.state == InboxState.WAITING:
        return False
    people = find_people(session, known.channel, known.address)
    for records in [CrewRecords(session, person.crew_id) for person in people]:
        said = records.entries_from_message(known.channel, known.message_id)
        recorded = [entry for entry in said if entry.kind is not EntryKind.STRIKE]
        if recorded:
            gone = struck(records.entries())
            return all(entry.uid in gone for entry in recorded)
    return known.received_at <= now - TAPPED_TWICE
