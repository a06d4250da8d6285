"""What the conversation with a person has come to, between messages."""

from dataclasses import dataclass, replace
from datetime import date
from typing import Any

from sqlalchemy.orm import Session

from bot.post.tables import TalkRow
from bot.reading.result import Finding
from bot.reading.situation import Said
from scheduling.entries import EntryKind
from scheduling.places import Place, UnitName
from scheduling.plain_values import from_plain, plain


@dataclass(frozen=True)
class Talk:
    """The state of a conversation.

    Attributes:
        unanswered: the last message, if it waits for the name of its yard.
        last_said: the last finding recorded, for "same".
        more: what did not fit into the last answer.
        yard_on: the person's local date on which the talk last turned to a yard.

    """

    unanswered: str = ""
    last_said: Said | None = None
    more: tuple[str, ...] = ()
    yard_on: date | None = None

    def at_yard(self, day: date) -> "Talk":
        """The talk turned to a yard on that day."""
        return replace(self, yard_on=day)

    def having_said(self, finding: Finding, places: tuple[Place, ...]) -> "Talk":
        """The last finding recorded, with all the places it was said of."""
        return replace(self, last_said=Said(finding.kind, finding.value, places))


def load_talk(session: Session, person_id: int) -> Talk:
    """The conversation with a person; an empty one if there was none."""
    row = session.get(TalkRow, person_id)
    if row is None:
        return Talk()
    said = None if row.last_said is None else _said(row.last_said)
    return Talk(row.unanswered, said, tuple(row.more), row.yard_on)


def save_talk(session: Session, person_id: int, talk: Talk) -> None:
    """Write the conversation down."""
    row = session.get(TalkRow, person_id) or TalkRow(person_id=person_id)
    row.unanswered = talk.unanswered
    row.last_said = None if talk.last_said is None else _plain(talk.last_said)
    row.more = list(talk.more)
    row.yard_on = talk.yard_on
    session.add(row)


def _plain(said: Said) -> dict[str, Any]:
    units = [[place.yard, str(place.unit)] for place in said.units if place.unit is not None]
    return {"kind": str(said.kind), "value": plain(said.value), "units": units}


def _said(stored: dict[str, Any]) -> Said:
    kind = EntryKind(stored["kind"])
    units = tuple(Place(yard, UnitName.parse(unit)) for yard, unit in stored["units"])
    return Said(kind, from_plain(kind, stored["value"]), units)
