"""Values that cannot be read: SQLite keeps in any column whatever was written there."""

from collections.abc import Callable, Iterator
from typing import Any

from sqlalchemy import Column, Connection, Table

from scheduling.records.copying import known_tables

_AT_ONCE = 1000
"""Rows held in memory at a time."""

Reader = Callable[[Any], Any]


def unreadable_values(connection: Connection) -> Iterator[str]:
    """Name each value of a SQLite database that is none of its column, in a line.

    Raises:
        UnknownTablesError: the database has a table that is not mapped.
    """
    for table in known_tables(connection):
        readers = {column.name: _reader(column, connection) for column in table.columns}
        for row in _rows(connection, table, list(readers)):
            for name, read in readers.items():
                try:
                    read(row[name])
                except Exception as error:  # noqa: BLE001 - whatever a damaged value brings up
                    key = " ".join(str(row[part.name]) for part in table.primary_key.columns)
                    yield f"{table.name} {key}: {name} is {row[name]!r}, {_why(error)}"


def _rows(connection: Connection, table: Table, columns: list[str]) -> Iterator[dict[str, Any]]:
    names = ", ".join(f'"{column}"' for column in columns)
    # Past the types of the columns, which would stop at the first bad value.
    found = connection.execution_options(yield_per=_AT_ONCE).exec_driver_sql(
        f'SELECT {names} FROM "{table.name}"'  # noqa: S608 - names of our own tables
    )
    for row in found:
        yield dict(zip(columns, row, strict=True))


def _reader(column: Column[Any], connection: Connection) -> Reader:
    kind = column.type.dialect_impl(connection.dialect)
    made = kind.result_processor(connection.dialect, None)
    wanted = _wanted(column)

    def read(value: Any) -> None:
        if value is None:
            if not column.nullable:
                raise ValueError("which must not be empty")
            return
        known = value if made is None else made(value)
        if wanted is not None and not isinstance(known, wanted):
            raise ValueError(f"which is no {wanted[0].__name__}")

    return read


def _wanted(column: Column[Any]) -> tuple[type, ...] | None:
    """Give the types of Python that a value may be of; None for any, as in JSON."""
    try:
        kind: type = column.type.python_type
    except NotImplementedError:
        return None
    if kind is dict:
        return None
    return (float, int) if kind is float else (kind,)


def _why(error: Exception) -> str:
    said = str(error)
    return said if said.startswith("which ") else "which cannot be read"
