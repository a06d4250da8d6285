"""The message of ours that somebody quotes, or whose button they pressed."""

from dataclasses import dataclass

from sqlalchemy import select
from sqlalchemy.orm import Session

from bot.channels.channel import IncomingMessage
from bot.delivery.message_tables import OutboxRow
from bot.delivery.outbox import places_from_json
from scheduling.places import Place


@dataclass(frozen=True)
class Quoted:
    """A message that is quoted, or under which the button was.

    Attributes:
        of_message: the id of the message in under which stands what it told of; None where it
            told of none.
        places: what a reply that names no unit is about.
        person_id: the person of ours that it went to; None if it is not known any more.
    """

    of_message: str | None
    places: tuple[Place, ...] = ()
    person_id: int | None = None

    @property
    def yard(self) -> str | None:
        """The one yard that it spoke of."""
        yards = {place.yard for place in self.places}
        return yards.pop() if len(yards) == 1 else None


def find_quoted(session: Session, message: IncomingMessage) -> Quoted | None:
    """Find what a message replies to; None if it replies to nothing.

    What is no message of ours may be one of the person's own, which tells of itself.
    """
    if message.replies_to is None:
        return None
    row = sent_as(session, message.channel, message.address, message.replies_to)
    if row is None:
        return Quoted(message.replies_to)
    return Quoted(row.of_message, places_from_json(row.places), row.person_id)


def sent_as(session: Session, channel: str, address: str, carrier_id: str) -> OutboxRow | None:
    """Find a message that an address got, by the carrier's id of it."""
    same = (OutboxRow.channel == channel) & (OutboxRow.carrier_id == carrier_id)
    mine = select(OutboxRow).where(same, OutboxRow.address == address)
    return session.scalars(mine.order_by(OutboxRow.id).limit(1)).first()
