"""Nobody changes or deletes an entry: not the program, not a statement sent past it."""

from collections.abc import Callable

import pytest
from sqlalchemy import Engine, delete, select, text, update
from sqlalchemy.exc import DBAPIError
from sqlalchemy.orm import Session

from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.records.append_only import triggers
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import LogChangeError
from scheduling.records.tables import EntryRow


@pytest.fixture
def row(session: Session, records: CrewRecords, noted: Callable[..., Entry]) -> EntryRow:
    records.append([noted("4b", EntryKind.EGGS)])
    return session.scalars(select(EntryRow)).one()


def test_changing_a_loaded_entry_is_refused(session: Session, row: EntryRow) -> None:
    row.kind = "no_eggs"
    with pytest.raises(LogChangeError):
        session.flush()


def test_deleting_a_loaded_entry_is_refused(session: Session, row: EntryRow) -> None:
    session.delete(row)
    with pytest.raises(LogChangeError):
        session.flush()


def test_changing_entries_in_bulk_is_refused(session: Session, row: EntryRow) -> None:
    with pytest.raises(LogChangeError):
        session.execute(update(EntryRow).values(kind="no_eggs"))
    with pytest.raises(LogChangeError):
        session.execute(delete(EntryRow))


OF_ONE_KIND = {
    "sqlite": "INSERT OR REPLACE INTO entry SELECT * FROM entry",
    "postgresql": "TRUNCATE entry",
}


@pytest.mark.parametrize(
    "statement", ["UPDATE entry SET kind = 'no_eggs'", "DELETE FROM entry", OF_ONE_KIND]
)
def test_the_database_itself_refuses(
    engine: Engine, session: Session, row: EntryRow, statement: str | dict[str, str]
) -> None:
    said = statement if isinstance(statement, str) else statement[engine.dialect.name]
    with pytest.raises(DBAPIError, match="never changed or deleted"):
        session.execute(text(said))


def test_a_database_without_a_known_guard_is_refused() -> None:
    with pytest.raises(ValueError, match="mysql"):
        triggers("mysql")
