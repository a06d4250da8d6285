"""A real SQLite file for every test, with one invented crew in it."""

import shutil
from collections.abc import Callable, Iterator
from datetime import UTC, date, datetime
from pathlib import Path

import pytest
from sqlalchemy import Engine
from sqlalchemy.orm import Session

from scheduling.entries import Entry, EntryKind
from scheduling.places import Place, UnitName
from scheduling.records.engine import open_engine, writing
from scheduling.records.gateway import CrewRecords, found_crew
from scheduling.records.migrate import migrate
from scheduling.values import Value

NOW = datetime(2027, 5, 12, 15, 30, tzinfo=UTC)

Noted = Callable[..., Entry]


@pytest.fixture
def now() -> datetime:
    return NOW


@pytest.fixture(scope="session")
def empty_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("records") / "empty.sqlite"
    engine = open_engine(f"sqlite:///{file}")
    migrate(engine)
    engine.dispose()
    return file


@pytest.fixture
def engine(tmp_path: Path, empty_file: Path) -> Iterator[Engine]:
    file = shutil.copy(empty_file, tmp_path / "yardbell.sqlite")
    engine = open_engine(f"sqlite:///{file}")
    yield engine
    engine.dispose()


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
