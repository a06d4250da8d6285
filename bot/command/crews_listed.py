"""The command that lists the crews, so that two with people of the same names are told apart."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

import click
from sqlalchemy import func, select
from sqlalchemy.orm import Session

from bot.command.call import Call
from bot.command.options import pass_call
from bot.command.screen import show
from bot.command.whose import nobody_yet
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import reading
from scheduling.records.people import Person
from scheduling.records.tables import CrewRow, EntryRow, UnitRow, YardRow


@dataclass(frozen=True)
class CrewCounted:
    """A crew as it is listed.

    Attributes:
        number: the crew's number.
        name: the crew's name.
        people: who is in it.
        yards: the number of units by the yard's name.
        entries: how many its log has.
        last: when the last of them was written down.
    """

    number: int
    name: str
    people: tuple[Person, ...]
    yards: dict[str, int]
    entries: int
    last: datetime | None


def crews_of(session: Session) -> list[CrewCounted]:
    """Count what is in each crew of a database."""
    return [crew_counted(session, each) for each in session.scalars(_BY_NUMBER)]


_BY_NUMBER = select(CrewRow.id).order_by(CrewRow.id)


def crew_counted(session: Session, number: int) -> CrewCounted:
    """Count what is in a crew.

    Raises:
        LookupError: there is no such crew.
    """
    records = CrewRecords(session, number)
    units = select(YardRow.name, func.count(UnitRow.id)).outerjoin(UnitRow)
    of_crew = units.where(YardRow.crew_id == number).group_by(YardRow.id, YardRow.name)
    yards = {name: int(count) for name, count in session.execute(of_crew.order_by(YardRow.id))}
    log = select(func.count(), func.max(EntryRow.recorded_at)).where(EntryRow.crew_id == number)
    entries, last = session.execute(log).one()
    return CrewCounted(number, records.crew().name, records.people(), yards, entries, last)


def crew_line(crew: CrewCounted) -> str:
    """Give a crew's line: its number first, by which other commands know it."""
    people = ", ".join(f"{person.name} ({person.role})" for person in crew.people) or "nobody"
    return f"{crew.number:>5}  {crew.name}: {people}; {', '.join(_holds(crew))}"


def _holds(crew: CrewCounted) -> Iterator[str]:
    yield ", ".join(f"{name} {count} units" for name, count in crew.yards.items()) or "no yards"
    last = f", the last {crew.last:%Y-%m-%d %H:%M} UTC" if crew.last is not None else ""
    yield f"{crew.entries} entries{last}"


@click.command("crews")
@pass_call
def crews_command(call: Call) -> None:
    """List the crews: number, name, people with their roles, yards, entries."""
    engine = call.engine_to_look()
    if engine is None:
        raise nobody_yet(call)
    with reading(engine) as session:
        crews = crews_of(session)
    show("\n".join(map(crew_line, crews)) or "no crew yet")
