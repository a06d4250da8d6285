"""Upserts: inserting a row that others may be inserting at the same moment."""

from collections.abc import Mapping, Sequence
from functools import cache
from typing import TYPE_CHECKING, Any

from sqlalchemy import Executable
from sqlalchemy.orm import Session

from scheduling.records.engine import connection_of
from scheduling.records.tables import Base, table_of

if TYPE_CHECKING:
    from sqlalchemy.dialects.postgresql import Insert as ServedInsert
    from sqlalchemy.dialects.sqlite import Insert

Row = Mapping[str, Any]
"""The values of a row by the names of its columns."""


def insert_into(session: Session, table: type[Base]) -> "Insert | ServedInsert":
    """Give an insert in the words of the session's database, for a row that may be there.

    Only those words are loaded: the other database's take time and memory at the start.
    """
    return _insert_into(session.get_bind().dialect.name, table)


def _insert_into(dialect: str, table: type[Base]) -> "Insert | ServedInsert":
    if dialect == "postgresql":
        from sqlalchemy.dialects import postgresql

        return postgresql.insert(table_of(table))
    from sqlalchemy.dialects import sqlite

    return sqlite.insert(table_of(table))


def insert_or_ignore(session: Session, table: type[Base], **values: Any) -> int | None:
    """Insert a row unless one with the same unique key is there; give its id, or None.

    Whoever inserts the same key in a transaction of its own is waited for.
    """
    adding = _insert_new(session.get_bind().dialect.name, table)
    number: int | None = connection_of(session).scalar(adding, values)
    return number


def insert_each_or_ignore(session: Session, table: type[Base], rows: Sequence[Row]) -> list[int]:
    """Insert those rows whose unique keys are not there; give the ids of what was inserted."""
    adding = _insert_new(session.get_bind().dialect.name, table)
    return list(connection_of(session).scalars(adding, _one_or_many(rows)))


@cache
def _insert_new(dialect: str, table: type[Base]) -> Executable:
    # Made once: making it anew takes longer than the database takes over it.
    new = _insert_into(dialect, table).on_conflict_do_nothing()
    return new.returning(*table_of(table).primary_key.columns)


def upsert(session: Session, table: type[Base], *rows: Row) -> None:
    """Insert rows, or give those that are there by their primary key the values given here."""
    replacing = _replace_row(session.get_bind().dialect.name, table, tuple(rows[0]))
    connection_of(session).execute(replacing, _one_or_many(rows))


def _one_or_many(rows: Sequence[Row]) -> Row | list[Row]:
    """Give one row alone: SQLAlchemy takes longer over a list of one."""
    return rows[0] if len(rows) == 1 else list(rows)


@cache
def _replace_row(dialect: str, table: type[Base], columns: tuple[str, ...]) -> Executable:
    adding, key = _insert_into(dialect, table), table_of(table).primary_key.columns.keys()
    taken = {name: adding.excluded[name] for name in columns if name not in key}
    return adding.on_conflict_do_update(index_elements=key, set_=taken)
