"""Who writes, and the state of the conversation with each person between messages."""

from dataclasses import asdict, dataclass, replace
from datetime import date
from typing import Any

from sqlalchemy import Integer, Row, bindparam, select
from sqlalchemy.orm import Session

from bot.channels.channel import IncomingMessage
from bot.delivery.message_tables import ConversationStateRow
from bot.reading.result import Finding
from bot.reading.situation import LastFinding
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName
from scheduling.records.addresses import AT_ADDRESS, takes_messages_again
from scheduling.records.crews import hold_crews
from scheduling.records.engine import connection_of
from scheduling.records.people import Person, person_of
from scheduling.records.tables import PersonRow
from scheduling.records.upsert import upsert
from scheduling.value_forms import value_from_json, value_to_json


@dataclass(frozen=True)
class ToConfirm:
    """A text that is done only after a yes, and the id of the message that said it."""

    text: str
    message: str


@dataclass(frozen=True)
class ConversationState:
    """The state of a conversation.

    Attributes:
        unanswered: the last message, if it waits for the name of its yard.
        last_said: the last finding recorded, for "same".
        more: what did not fit into the last answer.
        yard_on: the person's local date on which the talk last turned to a yard.
        spoken_yard: the yard last spoken of, whichever day that was.
        to_confirm: what waits for a yes.
    """

    unanswered: str = ""
    last_said: LastFinding | None = None
    more: tuple[str, ...] = ()
    yard_on: date | None = None
    spoken_yard: str | None = None
    to_confirm: ToConfirm | None = None

    def at_yard(self, yard: str, day: date) -> "ConversationState":
        """The talk turned to a yard on that day."""
        return replace(self, yard_on=day, spoken_yard=yard)

    def having_said(self, finding: Finding, places: tuple[Place, ...]) -> "ConversationState":
        """The last finding recorded, with all the places it was said of."""
        said = LastFinding(finding.kind, finding.value, places)
        return replace(self, last_said=said, spoken_yard=finding.place.yard)


STATE_COLUMNS = (
    ConversationStateRow.unanswered,
    ConversationStateRow.last_said,
    ConversationStateRow.more,
    ConversationStateRow.yard_on,
    ConversationStateRow.spoken_yard,
    ConversationStateRow.to_confirm,
)
"""What ``state_of`` wants of a row."""

_TALK = select(*STATE_COLUMNS).where(
    ConversationStateRow.person_id == bindparam("person", type_=Integer)
)


def load_state(session: Session, person_id: int) -> ConversationState:
    """The conversation with a person; an empty one if there was none."""
    row = connection_of(session).execute(_TALK, {"person": person_id}).first()
    return ConversationState() if row is None else state_of(row)


def state_of(row: Row[Any]) -> ConversationState:
    """Make the frozen value of a row; of one joined to nothing, the state of no talk yet."""
    if row.unanswered is None:
        return ConversationState()
    said = None if row.last_said is None else _said(row.last_said)
    waits = None if row.to_confirm is None else ToConfirm(**row.to_confirm)
    more = tuple(row.more)
    return ConversationState(row.unanswered, said, more, row.yard_on, row.spoken_yard, waits)


def save_state(session: Session, person_id: int, state: ConversationState) -> None:
    """Write the conversation down."""
    row = {
        "person_id": person_id,
        "unanswered": state.unanswered,
        "last_said": None if state.last_said is None else _plain(state.last_said),
        "more": list(state.more),
        "yard_on": state.yard_on,
        "spoken_yard": state.spoken_yard,
        "to_confirm": None if state.to_confirm is None else asdict(state.to_confirm),
    }
    upsert(session, ConversationStateRow, row)


def _plain(said: LastFinding) -> dict[str, Any]:
    units = [[place.yard, str(place.unit)] for place in said.units if place.unit is not None]
    return {"kind": str(said.kind), "value": value_to_json(said.value), "units": units}


def _said(stored: dict[str, Any]) -> LastFinding:
    kind = EntryKind(stored["kind"])
    units = tuple(Place(yard, UnitName.parse(unit)) for yard, unit in stored["units"])
    return LastFinding(kind, value_from_json(kind, stored["value"]), units)


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
