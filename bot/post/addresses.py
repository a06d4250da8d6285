"""What sending teaches about addresses: moved, blocked, or alive again."""

from datetime import datetime

from sqlalchemy import update
from sqlalchemy.orm import Session

from bot.channels.channel import SendOutcome, SendResult
from bot.post.outbox import Claimed
from scheduling.records.addresses import address_row
from scheduling.records.tables import AddressRow


def note_outcome(session: Session, message: Claimed, outcome: SendOutcome, now: datetime) -> None:
    """Write down that an address moved, or takes no more messages."""
    row = address_row(session, message.channel, message.letter.address)
    if row is None:
        return
    if outcome.moved_to and address_row(session, message.channel, outcome.moved_to) is None:
        row.address = outcome.moved_to
    if outcome.result is SendResult.UNREACHABLE:
        row.unreachable_since = row.unreachable_since or now
    elif outcome.result is SendResult.SENT:
        row.unreachable_since = None


def alive(session: Session, channel: str, address: str) -> None:
    """A message came in from the address, so it takes messages again."""
    at = (AddressRow.channel == channel) & (AddressRow.address == address)
    gone = AddressRow.unreachable_since.is_not(None)
    session.execute(update(AddressRow).where(at, gone).values(unreachable_since=None))
