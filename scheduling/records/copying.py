"""Copying every row of one database into another, of whatever kind."""

from collections.abc import Iterator

from sqlalchemy import Connection, Table, func, insert, inspect, select, text

from scheduling.records.tables import Base

_AT_ONCE = 1000
"""Rows held in memory at a time."""


class UnknownTablesError(Exception):
    """The database has tables that this program does not know, so they would be lost."""


def copy_rows(source: Connection, target: Connection) -> dict[str, int]:
    """Copy all rows into tables that are empty, parents first; give their number by table.

    Raises:
        UnknownTablesError: the source has a table that is not mapped.
    """
    tables = known_tables(source)
    copied = {table.name: _copy(source, target, table) for table in tables}
    if target.dialect.name == "postgresql":
        for table in tables:
            _count_on(target, table)
    return copied


def known_tables(connection: Connection) -> list[Table]:
    """Give the mapped tables, parents first.

    Raises:
        UnknownTablesError: the database has a table that is not mapped.
    """
    known = Base.metadata.tables.keys() | {"alembic_version"}
    strange = set(inspect(connection).get_table_names()) - known
    if strange:
        raise UnknownTablesError(f"it has unknown tables: {', '.join(sorted(strange))}")
    return Base.metadata.sorted_tables


def has_rows(connection: Connection) -> bool:
    """Tell whether any mapped table has a row in it."""
    return any(
        connection.execute(select(table).limit(1)).first() is not None
        for table in known_tables(connection)
    )


def _copy(source: Connection, target: Connection, table: Table) -> int:
    count = 0
    for rows in _rows(source, table):
        target.execute(insert(table), rows)
        count += len(rows)
    return count


def _rows(source: Connection, table: Table) -> Iterator[list[dict[str, object]]]:
    in_order = select(table).order_by(*table.primary_key)
    found = source.execution_options(yield_per=_AT_ONCE).execute(in_order)
    # An insert takes the keys of the columns, a read gives their names.
    keys = table.columns.keys()
    for part in found.partitions():
        yield [dict(zip(keys, row, strict=True)) for row in part]


def _count_on(target: Connection, table: Table) -> None:
    """Let the server number new rows after the last one copied."""
    number = table.autoincrement_column
    if number is None:
        return
    last = target.scalar(select(func.max(number)))
    if last is not None:
        quoted = target.dialect.identifier_preparer.format_table(table)
        sequence = "SELECT setval(pg_get_serial_sequence(:table, :column), :last)"
        target.execute(text(sequence), {"table": quoted, "column": number.name, "last": last})
