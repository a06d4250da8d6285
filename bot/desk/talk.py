"""What the conversation with a person has come to, between messages."""

from dataclasses import dataclass, replace
from datetime import date
from typing import Any

from sqlalchemy import Integer, Row, bindparam, select
from sqlalchemy.orm import Session

from bot.post.tables import TalkRow
from bot.reading.result import Finding
from bot.reading.situation import LastFinding
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName
from scheduling.plain_values import from_plain, plain
from scheduling.records.connection import connection_of
from scheduling.records.upsert import upsert


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
    last_said: LastFinding | None = None
    more: tuple[str, ...] = ()
    yard_on: date | None = None

    def at_yard(self, day: date) -> "Talk":
        """The talk turned to a yard on that day."""
        return replace(self, yard_on=day)

    def having_said(self, finding: Finding, places: tuple[Place, ...]) -> "Talk":
        """The last finding recorded, with all the places it was said of."""
        return replace(self, last_said=LastFinding(finding.kind, finding.value, places))


TALK_COLUMNS = (TalkRow.unanswered, TalkRow.last_said, TalkRow.more, TalkRow.yard_on)
"""What ``talk_of`` wants of a row."""

_TALK = select(*TALK_COLUMNS).where(TalkRow.person_id == bindparam("person", type_=Integer))


def load_talk(session: Session, person_id: int) -> Talk:
    """The conversation with a person; an empty one if there was none."""
    row = connection_of(session).execute(_TALK, {"person": person_id}).first()
    return Talk() if row is None else talk_of(row)


def talk_of(row: Row[Any]) -> Talk:
    """Make the frozen value of a row; of one joined to nothing, an empty talk."""
    if row.unanswered is None:
        return Talk()
    said = None if row.last_said is None else _said(row.last_said)
    return Talk(row.unanswered, said, tuple(row.more), row.yard_on)


def save_talk(session: Session, person_id: int, talk: Talk) -> None:
    """Write the conversation down."""
    row = {
        "person_id": person_id,
        "unanswered": talk.unanswered,
        "last_said": None if talk.last_said is None else _plain(talk.last_said),
        "more": list(talk.more),
        "yard_on": talk.yard_on,
    }
    upsert(session, TalkRow, row)


def _plain(said: LastFinding) -> dict[str, Any]:
    units = [[place.yard, str(place.unit)] for place in said.units if place.unit is not None]
    return {"kind": str(said.kind), "value": plain(said.value), "units": units}


def _said(stored: dict[str, Any]) -> LastFinding:
    kind = EntryKind(stored["kind"])
    units = tuple(Place(yard, UnitName.parse(unit)) for yard, unit in stored["units"])
    return LastFinding(kind, from_plain(kind, stored["value"]), units)
