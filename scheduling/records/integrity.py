"""Integrity: whether a database is whole, and its logs can be read and worked out.

Every row that points at another row must find it there.
"""

from collections.abc import Iterator
from datetime import datetime

from sqlalchemy import Connection, Inspector, MetaData, Table, and_, exists, func, inspect, select
from sqlalchemy.engine.interfaces import ReflectedForeignKeyConstraint
from sqlalchemy.exc import DatabaseError
from sqlalchemy.orm import Session

from scheduling.checks.calendar import work_out
from scheduling.entries import Entry, standing
from scheduling.entry_limits import faults_of_entry
from scheduling.records.tables import CrewRow, PersonRow, YardRow
from scheduling.records.whole_log import entries_of, rows_of_log
from scheduling.values import Struck
from scheduling.wall_time import known_zone


def damage(connection: Connection) -> list[str]:
    """Name what is broken in the database itself, each in a line."""
    lines: list[str] = []
    for look in (_orphans, _faults_of_file):
        try:
            lines += look(connection)
        except DatabaseError as error:
            # Some damage lets no question be answered, not even the one after it.
            lines.append(cannot_be_read(error))
    return list(dict.fromkeys(lines))


def cannot_be_read(error: DatabaseError) -> str:
    """Say in a line that a question to the database was not answered."""
    return f"the database cannot be read: {error.orig}"


def _orphans(connection: Connection) -> list[str]:
    orphans = broken_references(connection)
    return [f"{name}: {count} rows without their parent" for name, count in orphans.items()]


def _faults_of_file(connection: Connection) -> list[str]:
    if connection.dialect.name != "sqlite":
        return []
    said = connection.exec_driver_sql("PRAGMA integrity_check").scalars()
    return [f"the file: {line}" for line in said if line != "ok"]


def faults_of_crews(session: Session, now: datetime) -> Iterator[str]:
    """Name what is wrong with the crews' logs and clocks, each in a line; ``now`` is aware."""
    yield from _faults_of_zones(session)
    for crew in session.scalars(select(CrewRow.id).order_by(CrewRow.id)):
        entries, unreadable = _read(session, crew)
        yield from (f"crew {crew}: {fault}" for fault in unreadable)
        yield from (f"crew {crew}: {fault}" for fault in _faults(entries, now))


def _faults_of_zones(session: Session) -> Iterator[str]:
    for what, table in (("person", PersonRow), ("yard", YardRow)):
        for number, zone in session.execute(select(table.id, table.zone).order_by(table.id)):
            try:
                known_zone(zone)
            except ValueError as error:
                yield f"{what} {number}: {error}"


def _read(session: Session, crew: int) -> tuple[list[Entry], list[str]]:
    entries: list[Entry] = []
    faults = []
    for *columns, seq in session.execute(rows_of_log(crew)):
        try:
            entries += entries_of([columns])
        except Exception as error:  # noqa: BLE001 - whatever a damaged row brings up
            faults.append(f"entry number {seq} cannot be read: {error}")
    return entries, faults


def _faults(entries: list[Entry], now: datetime) -> Iterator[str]:
    known = {entry.uid for entry in entries}
    for entry in entries:
        if isinstance(entry.value, Struck) and entry.value.uid not in known:
            yield f"entry {entry.uid} strikes {entry.value.uid}, which is not there"
    for entry in standing(entries):
        yield from (f"entry {entry.uid}: {fault}" for fault in faults_of_entry(entry, now))
    try:
        left_out = work_out(entries).left_out
    except Exception as error:  # noqa: BLE001 - whatever the log brings up
        yield f"the calendar cannot be worked out: {error}"
    else:
        yield from (f"{place} cannot be worked out: {why}" for place, why in left_out.items())


def broken_references(connection: Connection) -> dict[str, int]:
    """Count rows without their parent, by table; tables without such rows are left out."""
    inspector = inspect(connection)
    tables = MetaData()
    tables.reflect(connection, resolve_fks=False)
    broken = {
        name: _rows_without_parent(connection, inspector, tables, name) for name in tables.tables
    }
    return {name: count for name, count in sorted(broken.items()) if count}


def _rows_without_parent(
    connection: Connection, inspector: Inspector, tables: MetaData, name: str
) -> int:
    keys = inspector.get_foreign_keys(name)
    return sum(_orphans_by_key(connection, tables.tables[name], tables, key) for key in keys)


def _orphans_by_key(
    connection: Connection, child: Table, tables: MetaData, key: ReflectedForeignKeyConstraint
) -> int:
    pointing = [child.c[name] for name in key["constrained_columns"]]
    parent = tables.tables[key["referred_table"]].alias()
    pointed_at = [parent.c[name] for name in key["referred_columns"]]
    there = exists().where(and_(*(a == b for a, b in zip(pointing, pointed_at, strict=True))))
    set_ = and_(*(column.is_not(None) for column in pointing))
    counted = select(func.count()).select_from(child).where(set_, ~there)
    return connection.scalar(counted) or 0
