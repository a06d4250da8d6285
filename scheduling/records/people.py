"""The people of a crew: who they are and how each wants to be told."""

from dataclasses import dataclass, fields
from datetime import date, datetime, time
from typing import Any, TypedDict, Unpack

from sqlalchemy import Row, Select, select

from scheduling.records.calendar_cache import check_log_again
from scheduling.records.crews import CrewScope, folded, tidy
from scheduling.records.tables import PersonRow, Role, YardRow, table_of
from scheduling.trade import table
from scheduling.wall_time import known_zone

MORNING = time(6, 30)
"""When the morning message comes unless the person says otherwise; common practice, no source."""

FEEDER_LITRES = table.FEEDER.value
"""What one feeder holds unless the person says otherwise."""


@dataclass(frozen=True)
class Person:
    """One member of one crew.

    Attributes:
        id: the person's number.
        crew_id: the crew's number.
        name: unique in the crew, whatever the capitals.
        role: what the person may do.
        zone: the person's own time zone, an IANA name.
        morning: local time of the morning message.
        feeder_litres: what one of the crew's feeders holds.
        stopped: the person wants no message that was not asked for.
        cautioned_on: the local date of the last first-use caution.
        daily_word: a morning message also when nothing is due.
        quiet_from: local time from which nothing is sent; None for what the channel has.
        quiet_until: local time at which the quiet span ends; the same as its beginning for none.
        morning_asked_at: the instant the person last asked for the hour of their morning.
        quiet_asked_at: the instant the person last settled their quiet hours.
        first_channel: the channel that goes before others.
        fallback_minutes: after so long without delivery a reminder goes over the next channel.
        next_morning_at: the instant of the next morning message.
        yard: the name of the yard that the talk is in.
        created_at: the instant the person joined.
        left_at: the instant the person went out of the crew; None while they are in it.
    """

    id: int
    crew_id: int
    name: str
    role: Role
    zone: str
    morning: time
    feeder_litres: float
    stopped: bool
    cautioned_on: date | None
    daily_word: bool
    quiet_from: time | None
    quiet_until: time | None
    morning_asked_at: datetime | None
    quiet_asked_at: datetime | None
    first_channel: str | None
    fallback_minutes: int | None
    next_morning_at: datetime | None
    yard: str | None
    created_at: datetime
    left_at: datetime | None = None


class PersonChanges(TypedDict, total=False):
    """What may be changed about a person; what is not named stays."""

    name: str
    role: Role
    zone: str
    morning: time
    feeder_litres: float
    stopped: bool
    cautioned_on: date | None
    daily_word: bool
    quiet_from: time | None
    quiet_until: time | None
    morning_asked_at: datetime | None
    quiet_asked_at: datetime | None
    first_channel: str | None
    fallback_minutes: int | None
    next_morning_at: datetime | None
    yard: str | None


class PeopleOfCrew(CrewScope):
    """The people of one crew."""

    def people(self, *, who_left: bool = False) -> tuple[Person, ...]:
        """Give everybody, in the order they joined; with ``who_left`` also who is out by now."""
        everybody = self._people().order_by(PersonRow.id)
        found = everybody if who_left else everybody.where(PersonRow.left_at.is_(None))
        return tuple(person_of(row) for row in self._session.execute(found))

    def person(self, person_id: int) -> Person:
        """Give one person.

        Raises:
            LookupError: nobody of this crew has that number.
        """
        found = self._session.execute(self._people().where(PersonRow.id == person_id)).first()
        if found is None:
            raise LookupError(f"nobody in this crew has the number {person_id}")
        return person_of(found)

    def person_named(self, name: str) -> Person | None:
        """Find a person by name, whatever the capitals; also one who is out of the crew."""
        named = self._people().where(PersonRow.name_folded == folded(name))
        found = self._session.execute(named).first()
        return None if found is None else person_of(found)

    def add_person(
        self, name: str, *, zone: str, now: datetime, role: Role = Role.KEEPER
    ) -> Person:
        """Take a person into the crew.

        Raises:
            ValueError: the crew has somebody of that name, or the zone is unknown.
        """
        name = tidy(name)
        self._refuse_taken_name(name, but_of=None)
        row = PersonRow(
            crew_id=self._crew_id,
            name=name,
            name_folded=folded(name),
            role=str(role),
            zone=known_zone(zone),
            morning=MORNING,
            feeder_litres=self._feeder_litres(),
            stopped=False,
            daily_word=False,
            created_at=now,
        )
        self._session.add(row)
        self._session.flush()
        return self.person(row.id)

    def update_person(self, person_id: int, **changes: Unpack[PersonChanges]) -> Person:
        """Change what is named and give the person back.

        Raises:
            LookupError: the person or the yard is not of this crew.
            ValueError: the name is taken, or the zone is unknown.
        """
        row = self._person_row(person_id)
        if "name" in changes:
            name = tidy(changes["name"])
            self._refuse_taken_name(name, but_of=person_id)
            row.name, row.name_folded = name, folded(name)
            check_log_again(self._session, self._crew_id)
        if "zone" in changes:
            row.zone = known_zone(changes["zone"])
        if "yard" in changes:
            yard = changes["yard"]
            row.yard_id = None if yard is None else self._yard_row(yard).id
        for field in changes.keys() - {"name", "zone", "yard"}:
            setattr(row, field, changes[field])  # type: ignore[literal-required]
        self._session.flush()
        return self.person(person_id)

    def settle_feeder(self, litres: float) -> None:
        """Keep what one feeder of the crew holds, for everybody in it."""
        of_crew = select(PersonRow).where(PersonRow.crew_id == self._crew_id)
        for row in self._session.scalars(of_crew):
            row.feeder_litres = litres
        self._session.flush()

    def _feeder_litres(self) -> float:
        """Give what the crew's feeders hold, as whoever came first has it."""
        of_crew = select(PersonRow.feeder_litres).where(PersonRow.crew_id == self._crew_id)
        first = self._session.scalar(of_crew.order_by(PersonRow.id).limit(1))
        return FEEDER_LITRES if first is None else first

    def _people(self) -> Select[Any]:
        return people_with_yards().where(PersonRow.crew_id == self._crew_id)

    def _person_row(self, person_id: int) -> PersonRow:
        of_crew = select(PersonRow).where(PersonRow.crew_id == self._crew_id)
        row = self._session.scalar(of_crew.where(PersonRow.id == person_id))
        if row is None:
            raise LookupError(f"nobody in this crew has the number {person_id}")
        return row

    def _refuse_taken_name(self, name: str, but_of: int | None) -> None:
        holder = self.person_named(name)
        if holder is not None and holder.id != but_of:
            raise ValueError(f"there is already a {holder.name} in this crew")


def people_with_yards() -> Select[Any]:
    """Select people of all crews, each with the name of the yard the talk is in."""
    columns = (getattr(PersonRow, column.key) for column in table_of(PersonRow).columns)
    yard = YardRow.name.label("yard_name")
    return select(*columns, yard).outerjoin(YardRow, YardRow.id == PersonRow.yard_id)


_AS_KEPT = tuple(field.name for field in fields(Person) if field.name not in {"role", "yard"})


def person_of(row: Row[Any]) -> Person:
    """Make the frozen value of a row of ``people_with_yards``."""
    kept = {name: getattr(row, name) for name in _AS_KEPT}
    return Person(role=Role(row.role), yard=row.yard_name, **kept)
