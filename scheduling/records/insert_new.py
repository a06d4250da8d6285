"""Inserting a row that others may be inserting at the same moment."""

from typing import TYPE_CHECKING, Any

from sqlalchemy.orm import Session

from scheduling.records.tables import Base

if TYPE_CHECKING:
    from sqlalchemy.dialects.postgresql import Insert as ServedInsert
    from sqlalchemy.dialects.sqlite import Insert


def insert_into(session: Session, table: type[Base]) -> "Insert | ServedInsert":
    """Give an insert in the words of the session's database, for a row that may be there.

    Only those words are loaded: the other database's take time and memory at the start.
    """
    if session.get_bind().dialect.name == "postgresql":
        from sqlalchemy.dialects import postgresql

        return postgresql.insert(table)
    from sqlalchemy.dialects import sqlite

    return sqlite.insert(table)


def insert_new(session: Session, table: type[Base], **values: Any) -> int | None:
    """Insert a row unless one with the same unique key is there; give its id, or None.

    Whoever inserts the same key in a transaction of its own is waited for.
    """
    adding = insert_into(session, table).values(**values).on_conflict_do_nothing()
    number: int | None = session.scalar(adding.returning(table.__table__.c.id))
    return number
