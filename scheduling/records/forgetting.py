"""Forgetting: a person's name goes out of the records, or a whole crew does.

Only here is anything of the log changed or deleted, and the log's guard in the database refuses it
anywhere else: the entries of a forgotten person stay, but for the ids of their messages.
"""

import re
import uuid
from datetime import datetime

from sqlalchemy import ColumnElement, Table, delete, select, update
from sqlalchemy.orm import Session

from scheduling.records.calendar_cache import check_log_again
from scheduling.records.crew_records import CrewRecords
from scheduling.records.crews import folded, hold_crew
from scheduling.records.engine import connection_of
from scheduling.records.people import Person
from scheduling.records.set_up_changes import SetUpChangeRow
from scheduling.records.tables import (
    Base,
    CrewRow,
    EntryRow,
    PersonRow,
    Role,
    YardRow,
    table_of,
)

NAMELESS = "somebody"
"""How whoever is forgotten stands beside their entries; the second of a crew is "somebody 2"."""


def take_name_out(session: Session, person: Person, now: datetime) -> str:
    """Take the name of a person who left out of their crew; what they noted stays.

    Returns:
        What stands beside their entries in its place.
    """
    erase_what_is_deleted(session)
    records = CrewRecords(session, person.crew_id)
    row = session.get_one(PersonRow, person.id)
    name = records.free_name(NAMELESS)
    row.name, row.name_folded, row.forgotten_at = name, folded(name), now
    row.first_channel = row.cautioned_on = row.quiet_from = row.quiet_until = None
    session.flush()
    _forget_message_ids(session, person)
    # What they set up stays; what it was before, and by which message, goes.
    mine = (SetUpChangeRow.crew_id == person.crew_id) & (SetUpChangeRow.person_id == person.id)
    session.execute(delete(SetUpChangeRow).where(mine))
    _rename_crew(session, records, person.name)
    check_log_again(session, person.crew_id)
    return name


def erase_what_is_deleted(session: Session) -> None:
    """Let SQLite overwrite in its file what this transaction deletes; elsewhere it stays there."""
    if session.get_bind().dialect.name == "sqlite":
        connection_of(session).exec_driver_sql("PRAGMA secure_delete = ON")


def _forget_message_ids(session: Session, person: Person) -> None:
    """Give the messages of a person's entries ids that say nothing; each keeps its entries."""
    # Past the session, whose own guard of the log knows no exception.
    connection, entry = connection_of(session), table_of(EntryRow)
    mine = (entry.c.crew_id == person.crew_id) & (entry.c.person_id == person.id)
    told = select(entry.c.channel, entry.c.message).where(mine, entry.c.message.is_not(None))
    for channel, message in connection.execute(told.distinct()).all():
        these = mine & (entry.c.channel == channel) & (entry.c.message == message)
        connection.execute(update(entry).where(these).values(message=uuid.uuid4().hex))


def _rename_crew(session: Session, records: CrewRecords, name: str) -> None:
    """Call a crew that bears a forgotten name after its first owner."""
    row = session.get_one(CrewRow, records.crew().id)
    if re.search(rf"\b{re.escape(name)}\b", row.name, re.IGNORECASE):
        owners = [each.name for each in records.people() if each.role is Role.OWNER]
        row.name = f"{(owners or [NAMELESS])[0]}'s crew"
        session.flush()


def forget_places(session: Session, crew_id: int) -> None:
    """Take the yards' places and weather out of a crew that nobody is in any more."""
    yards = select(YardRow.id).where(YardRow.crew_id == crew_id)
    connection = connection_of(session)
    for table in Base.metadata.sorted_tables:
        if table.name.startswith("weather_"):
            connection.execute(delete(table).where(table.c.yard_id.in_(yards)))
    here = update(table_of(YardRow)).where(YardRow.crew_id == crew_id)
    connection.execute(here.values(latitude=None, longitude=None))
    connection.execute(delete(SetUpChangeRow).where(SetUpChangeRow.crew_id == crew_id))


def delete_crew(session: Session, crew_id: int, now: datetime) -> dict[str, int]:
    """Delete a crew with all that is of it, its log included; gives the rows deleted by table.

    All tables must be loaded. What is kept by address alone is left.

    Raises:
        LookupError: there is no such crew.
    """
    hold_crew(session, crew_id)
    row = session.get(CrewRow, crew_id)
    if row is None:
        raise LookupError(f"there is no crew {crew_id}")
    erase_what_is_deleted(session)
    row.ends_at = now
    session.flush()
    session.expunge(row)
    connection = connection_of(session)
    deleted = {}
    for table in reversed(Base.metadata.sorted_tables):
        which = _of_crew(table, crew_id)
        if which is not None:
            deleted[table.name] = connection.execute(delete(table).where(which)).rowcount
    check_log_again(session, crew_id)
    return deleted


def _of_crew(table: Table, crew_id: int) -> ColumnElement[bool] | None:
    """The rows of a table that belong to a crew; None for a table that belongs to none."""
    if table is table_of(CrewRow):
        return table.c.id == crew_id
    if "crew_id" in table.columns:
        return table.c.crew_id == crew_id
    if "yard_id" in table.columns:
        return table.c.yard_id.in_(select(YardRow.id).where(YardRow.crew_id == crew_id))
    if "person_id" in table.columns:
        return table.c.person_id.in_(select(PersonRow.id).where(PersonRow.crew_id == crew_id))
    return None
