"""Where a person is reached, and whether their crew must be named to them there."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from sqlalchemy.orm import Session

from bot.wording.crews_named import apart, from_crew
from scheduling.records.addresses import crews_together, in_several_crews
from scheduling.records.crew_records import CrewRecords
from scheduling.records.people import Person


@dataclass(frozen=True)
class Recipient:
    """Where a message goes; ``person_id`` is None for somebody who has not joined."""

    channel: str
    address: str
    person_id: int | None = None


def next_address(
    records: CrewRecords, person_id: int, running: Collection[str], but_of: Collection[str] = ()
) -> Recipient | None:
    """Where a person takes messages: on a running channel before any other, then on their first.

    With ``but_of`` on any channel but those.
    """
    first = records.person(person_id).first_channel
    found = sorted(
        [each for each in records.reachable_addresses(person_id) if each.channel not in but_of],
        key=lambda each: (each.channel not in running, each.channel != first),
    )
    return Recipient(found[0].channel, found[0].address, person_id) if found else None


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
