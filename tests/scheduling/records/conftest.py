"""One invented crew in a real database."""

from collections.abc import Callable, Iterator
from datetime import UTC, date, datetime

import pytest
from sqlalchemy import Engine
from sqlalchemy.orm import Session

from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName
from scheduling.records.crew_records import CrewRecords, found_crew
from scheduling.records.engine import writing
from scheduling.values import Value

NOW = datetime(2027, 5, 12, 15, 30, tzinfo=UTC)

Noted = Callable[..., Entry]


@pytest.fixture
def now() -> datetime:
    return NOW


@pytest.fixture
def session(engine: Engine) -> Iterator[Session]:
    with writing(engine) as session:
        yield session


@pytest.fixture
def records(session: Session) -> CrewRecords:
    """Ann's crew: the yard River with box 4 of three units and the single box 7."""
    crew, _ann = found_crew(session, "Ann's bees", "Ann", "America/Chicago", NOW)
    records = CrewRecords(session, crew.id)
    records.add_yard("River", "America/Chicago")
    records.add_units("River", [UnitName.parse(name) for name in ("4a", "4b", "4c", "7")])
    return records


@pytest.fixture
def noted() -> Noted:
    """Make an entry of Ann's in River; each call is another entry."""
    made = 0

    def note(
        unit: str | None,
        kind: EntryKind,
        value: Value | None = None,
        *,
        uid: str | None = None,
        yard: str = "River",
        person: str = "Ann",
        on: date = date(2027, 5, 12),
        message: str | None = None,
        text: str = "",
    ) -> Entry:
        nonlocal made
        made += 1
        place = Place(yard, None if unit is None else UnitName.parse(unit))
        uid = uid or f"e{made}"
        return Entry(uid, place, kind, value, on, NOW, person, "console", message, text)

    return note
