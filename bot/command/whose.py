"""Which person, and so which crew, a command is about."""

from collections.abc import Sequence
from datetime import date, datetime

from sqlalchemy import select
from sqlalchemy.orm import Session

from bot.channels import console
from bot.channels.channel import IncomingMessage
from bot.command.call import Call, InputError
from bot.command.database import shown_address
from bot.conversation.conversation_state import load_state
from bot.conversation.turn import Turn, situation_of
from bot.reading.situation import Situation
from scheduling.records.addresses import find_person
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import connection_of
from scheduling.records.people import Person, people_with_yards, person_of
from scheduling.records.tables import PersonRow
from scheduling.wall_time import local_day


def everybody(session: Session) -> list[Person]:
    """All people of all crews in this database, in the order they came; not who left."""
    there = people_with_yards().where(PersonRow.left_at.is_(None))
    found = session.execute(there.order_by(PersonRow.id))
    return [person_of(row) for row in found]


def person_named(session: Session, name: str, crew: int | None = None) -> Person:
    """The person of that name; of several, the one who types under it at this terminal.

    With ``crew`` the one of that crew.

    Raises:
        InputError: nobody, or people of more than one crew, have the name.
    """
    typing = None if crew is not None else find_person(session, console.NAME, name)
    if typing is not None:
        return typing
    people = _of_crew(everybody(session), crew)
    named = [person for person in people if person.name.casefold() == name.casefold()]
    if len(named) == 1:
        return named[0]
    if named:
        raise InputError(f"{name} is in several crews; say which with --crew N (yardbell crews)")
    raise nobody_called(name, people)


def _of_crew(people: Sequence[Person], crew: int | None) -> list[Person]:
    return [person for person in people if crew in (None, person.crew_id)]


def nobody_called(name: str, people: Sequence[Person]) -> InputError:
    """The error that nobody has the name, with the names there are."""
    known = ", ".join(person.name for person in people) or "nobody yet"
    return InputError(f"nobody here is called {name}; known: {known}")


def nobody_yet(looked_in: Call | Session) -> InputError:
    """The error that a crew is needed, and there is none where it was looked for."""
    url = (
        looked_in.settings.database_url
        if isinstance(looked_in, Call)
        else connection_of(looked_in).engine.url
    )
    return InputError(
        f"nobody is in this database yet: {shown_address(url)}; begin with: yardbell chat --as NAME"
    )


def nobodys_situation(on: date | None, now: datetime) -> Situation:
    """The situation of a text before anybody has a yard: any unit is taken to exist."""
    return Situation(today=on or now.astimezone().date())


def situation_for(
    session: Session, name: str | None, on: date | None, now: datetime, crew: int | None = None
) -> Situation:
    """The situation in which a person would write; an empty one if the database is.

    Raises:
        InputError: nobody has the name, or none is given and there is more than one crew.
    """
    if name is None and session.scalar(select(PersonRow.id).limit(1)) is None:
        return nobodys_situation(on, now)
    person = person_asked(session, name, crew)
    message = IncomingMessage("read", person.name, "", "", now)
    records = CrewRecords(session, person.crew_id)
    state = load_state(session, person.id)
    turn = Turn(session, records, person, message, now, state, lambda _code: None)
    turn.today = on or local_day(now, person.zone)
    return situation_of(turn)


def person_asked(session: Session, name: str | None, crew: int | None) -> Person:
    """The person of a name, or the first of a crew, or of the only one.

    Raises:
        InputError: nobody has the name, there are several crews and none is named, or there is
            nobody at all.
    """
    if name is not None:
        return person_named(session, name, crew)
    people = _of_crew(everybody(session), crew)
    if len({person.crew_id for person in people}) == 1:
        return people[0]
    if crew is not None:
        raise InputError(f"there is no crew {crew}, or nobody in it; yardbell crews lists them")
    if not people:
        raise nobody_yet(session)
    raise InputError("this database has several crews; say whose with --for NAME or --crew N")
