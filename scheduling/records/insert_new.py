"""Inserting a row that others may be inserting at the same moment."""

from typing import Any

from sqlalchemy.dialects import postgresql, sqlite
from sqlalchemy.orm import Session

from scheduling.records.tables import Base


def insert_new(session: Session, table: type[Base], **values: Any) -> int | None:
    """Insert a row unless one with the same unique key is there; give its id, or None.

    Whoever inserts the same key in a transaction of its own is waited for.
    """
    served = session.get_bind().dialect.name == "postgresql"
    insert = postgresql.insert(table) if served else sqlite.insert(table)
    adding = insert.values(**values).on_conflict_do_nothing()
    number: int | None = session.scalar(adding.returning(table.__table__.c.id))
    return number
