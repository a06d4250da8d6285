"""Albums: several pictures sent at once, each of which a channel hands in as a message."""

from sqlalchemy import select
from sqlalchemy.orm import Session

from bot.channels.channel import IncomingMessage
from bot.delivery.message_tables import InboxRow


def came_before(session: Session, message: IncomingMessage) -> bool:
    """Tell whether another message of the same album came already."""
    if message.album is None:
        return False
    same = (InboxRow.channel == message.channel) & (InboxRow.album == message.album)
    other = select(InboxRow.id).where(same, InboxRow.message_id != message.id)
    return session.scalars(other.limit(1)).first() is not None
