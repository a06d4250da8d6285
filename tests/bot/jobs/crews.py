"""Crews with cells in their boxes, written straight into the log."""

from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta

from sqlalchemy import Engine, select

from bot.delivery.message_tables import OutboxRow
from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName
from scheduling.records.addresses import address_rows
from scheduling.records.crew_records import CrewRecords, found_crew
from scheduling.records.engine import reading, writing
from scheduling.records.people import Person, PersonChanges
from scheduling.values import CellAge

DAY = date(2027, 5, 12)
"""Cells placed two weeks before are due a look for eggs."""

PLACED = DAY - timedelta(days=14)


def instant(day: date, hour: int, minute: int = 0) -> datetime:
    """An instant given in UTC."""
    return datetime.combine(day, time(hour, minute), tzinfo=UTC)


@dataclass(frozen=True)
class Member:
    """Somebody of a crew on one database."""

    engine: Engine
    person_id: int
    crew_id: int

    @property
    def person(self) -> Person:
        """The person as kept now."""
        with reading(self.engine) as session:
            return CrewRecords(session, self.crew_id).person(self.person_id)

    def update(self, changes: PersonChanges) -> None:
        """Change something about the person."""
        with writing(self.engine) as session:
            CrewRecords(session, self.crew_id).update_person(self.person_id, **changes)

    def add_address(self, channel: str, address: str) -> None:
        """Give the person one more address."""
        with writing(self.engine) as session:
            CrewRecords(session, self.crew_id).add_address(self.person_id, channel, address)

    def lose(self, channel: str, address: str) -> None:
        """Mark an address as one that takes no more messages."""
        with writing(self.engine) as session:
            (row,) = address_rows(session, channel, address)
            row.unreachable_since = instant(PLACED, 12)

    def letters(self) -> list[tuple[str, str, str]]:
        """Purpose, channel and address of all that was queued for the person."""
        mine = select(OutboxRow).where(OutboxRow.person_id == self.person_id)
        with reading(self.engine) as session:
            rows = session.scalars(mine.order_by(OutboxRow.id)).all()
        return [(row.purpose, row.channel, row.address) for row in rows]

    def mornings(self) -> list[str]:
        """The texts of the mornings that were queued for the person."""
        mine = select(OutboxRow.text).where(OutboxRow.person_id == self.person_id)
        with reading(self.engine) as session:
            return list(session.scalars(mine.where(OutboxRow.purpose == "morning")))


def keeper(
    engine: Engine,
    name: str = "Ada",
    address: str | None = "11",
    zone: str = "UTC",
    cells: bool = True,
    next_at: datetime | None = None,
) -> Member:
    """An owner with a yard River of one box of three, its cells placed two weeks ago.

    The person has had this year's caution, and the morning is at 6:30 local time.
    """
    with writing(engine) as session:
        crew, person = found_crew(session, f"{name}'s crew", name, zone, instant(PLACED, 12))
        records = CrewRecords(session, crew.id)
        if address is not None:
            records.add_address(person.id, "phone", address)
        if cells:
            _place_cells(records, name, zone)
        due = next_at or instant(DAY, 6, 30)
        records.update_person(person.id, next_morning_at=due, cautioned_on=PLACED)
    return Member(engine, person.id, crew.id)


def _place_cells(records: CrewRecords, name: str, zone: str) -> None:
    records.add_yard("River", zone)
    units = [UnitName(1, outgoing) for outgoing in "abc"]
    records.add_units("River", units)
    records.append(
        Entry(
            uid=f"{name}-{unit}",
            place=Place("River", unit),
            kind=EntryKind.CELL_PLACED,
            value=CellAge.parse("10"),
            on=PLACED,
            recorded_at=instant(PLACED, 12),
            person=name,
            channel="phone",
        )
        for unit in units
    )
