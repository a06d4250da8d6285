"""The names of the crews of whoever is in several, and what each told them today."""

from collections.abc import Sequence
from datetime import date

from sqlalchemy import select
from sqlalchemy.orm import Session

from bot.delivery.message_tables import OutboxRow
from bot.delivery.rules import OutboxState, Purpose
from bot.wording.crews_named import apart, from_crew
from scheduling.records.addresses import crews_together, in_several_crews
from scheduling.records.crew_records import CrewRecords
from scheduling.records.people import Person


def crew_names(session: Session, people: Sequence[Person]) -> list[str]:
    """Name the crews of these people, so that no two are called the same."""
    return apart([CrewRecords(session, person.crew_id).crew().name for person in people])


def crew_said(session: Session, person_id: int) -> str:
    """Name a person's crew if they are in several, so that it must be said; else ""."""
    if not in_several_crews(session, [person_id]):
        return ""
    people = crews_together(session, person_id)
    place = [person.id for person in people].index(person_id)
    return crew_names(session, people)[place]


def of_their_crew(session: Session, person_id: int, text: str) -> str:
    """Name the crew of a text to somebody who is in several; else give the text as it is."""
    crew = crew_said(session, person_id)
    return from_crew(crew, text) if crew else text


def told_on(session: Session, person_id: int, day: date) -> list[OutboxRow]:
    """Give the answers and mornings that a person got on their local date, in order."""
    mine = select(OutboxRow).where(OutboxRow.person_id == person_id, OutboxRow.about == day)
    return [row for row in session.scalars(mine.order_by(OutboxRow.id)) if _told(row)]


def _told(row: OutboxRow) -> bool:
    """Tell answers, which follow what the person said, and mornings that may have come."""
    if row.purpose == Purpose.MORNING:
        return row.state in (OutboxState.SENT, OutboxState.UNKNOWN)
    return row.purpose in (Purpose.ANSWER, Purpose.FAREWELL)
