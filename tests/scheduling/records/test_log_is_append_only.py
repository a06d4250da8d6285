"""Nobody changes or deletes an entry: not the program, not a statement sent past it."""

from collections.abc import Callable

import pytest
from sqlalchemy import delete, select, text, update
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from scheduling.entries import Entry, EntryKind
from scheduling.records.append_only import LogChangeError, triggers
from scheduling.records.gateway import CrewRecords
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


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE entry SET kind = 'no_eggs'",
        "DELETE FROM entry",
        "INSERT OR REPLACE INTO entry SELECT * FROM entry",
    ],
)
def test_the_database_itself_refuses(session: Session, row: EntryRow, statement: str) -> None:
    with pytest.raises(IntegrityError, match="never changed or deleted"):
        session.execute(text(statement))


def test_a_database_without_a_known_guard_is_refused() -> None:
    with pytest.raises(ValueError, match="mysql"):
        triggers("mysql")
