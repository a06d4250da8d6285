"""The authors of a message, each with the state of their conversation: read at once."""

from dataclasses import dataclass

from sqlalchemy.orm import Session

from bot.channels.channel import IncomingMessage
from bot.conversation.conversation_state import STATE_COLUMNS, ConversationState, state_of
from bot.delivery.message_tables import ConversationStateRow
from scheduling.records.addresses import AT_ADDRESS, takes_messages_again
from scheduling.records.crews import hold_crews
from scheduling.records.engine import connection_of
from scheduling.records.people import Person, person_of
from scheduling.records.tables import PersonRow

_WRITERS = AT_ADDRESS.add_columns(*STATE_COLUMNS).outerjoin(
    ConversationStateRow, ConversationStateRow.person_id == PersonRow.id
)


@dataclass(frozen=True)
class Author:
    """One of those whom an address stands for, and the talk with them."""

    person: Person
    state: ConversationState


def find_authors(session: Session, message: IncomingMessage) -> tuple[Author, ...]:
    """Find who wrote, as they are in each of their crews once nobody else writes there.

    Their address takes messages again, whatever its carrier said before.
    """
    people = _read(session, message)
    if not people or session.get_bind().dialect.name == "sqlite":
        return people
    hold_crews(session, {writer.person.crew_id for writer in people})
    return _read(session, message)


def _read(session: Session, message: IncomingMessage) -> tuple[Author, ...]:
    at = {"channel": message.channel, "address": message.address}
    found = connection_of(session).execute(_WRITERS, at).all()
    if any(row.unreachable_since is not None for row in found):
        takes_messages_again(session, message.channel, message.address)
    return tuple(Author(person_of(row), state_of(row)) for row in found)
