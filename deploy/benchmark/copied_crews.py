"""A database of very many crews: some are founded, the others are copies of their rows."""

from collections.abc import Iterator, Mapping
from datetime import datetime
from itertools import cycle
from typing import Any

from sqlalchemy import (
    CTE,
    ColumnElement,
    Connection,
    Engine,
    Integer,
    Table,
    Text,
    cast,
    insert,
    literal,
    select,
    text,
)

from bot.channels.traits import TELEGRAM
from deploy.benchmark.invented_crew import YARDS
from deploy.benchmark.many_crews import NAMES, fill
from deploy.benchmark.replies import FINDINGS
from scheduling.records.tables import (
    AddressRow,
    Base,
    CrewRow,
    EntryRow,
    PersonRow,
    UnitRow,
    YardRow,
    table_of,
)
from scheduling.records.weather_days import WeatherAskedRow, WeatherDayRow

FOUNDED = 50
"""Crews that are unlike each other, so that no cache serves one crew with another's work."""

_OFFSETS: dict[type[Base], dict[str, int]] = {
    CrewRow: {"id": 1},
    YardRow: {"id": YARDS, "crew_id": 1},
    PersonRow: {"id": 1, "crew_id": 1},
    AddressRow: {"id": 1, "person_id": 1, "address": 1},
    UnitRow: {"yard_id": YARDS},
    EntryRow: {"crew_id": 1, "yard_id": YARDS, "person_id": 1},
    WeatherDayRow: {"yard_id": YARDS},
    WeatherAskedRow: {"yard_id": YARDS},
}
"""By how much each number of a row is higher in the next crew."""


_WHOSE = ("crew_id", "yard_id", "person_id", "id")
"""The columns that tell whose a row is, the surest first."""


def fill_by_copying(
    engine: Engine, crews: int, units: int, now: datetime, first_address: int
) -> None:
    """Found up to 50 crews with one owner each, and copy them until there are enough.

    Hours of weather are not copied: only days are read.
    """
    founded = min(FOUNDED, crews)
    fill(engine, founded, now, TELEGRAM.name, first_address, units)
    with engine.begin() as connection:
        for kind, offsets in _OFFSETS.items():
            copy_of_each(connection, table_of(kind), offsets, founded, crews)
    gather_statistics(engine)


def gather_statistics(engine: Engine) -> None:
    """Let the database look at how many rows there are by now."""
    with engine.connect().execution_options(isolation_level="AUTOCOMMIT") as connection:
        connection.execute(text("ANALYZE"))


def river_findings() -> Iterator[str]:
    """Give replies that are recorded, of units that every crew of 60 has in its first yard."""
    for number, finding in enumerate(cycle(FINDINGS)):
        yield f"{NAMES[0]} {number // 3 % 5 + 1}{'abc'[number % 3]} {finding}"


def copy_of_each(
    connection: Connection,
    table: Table,
    offsets: Mapping[str, int],
    founded: int,
    crews: int,
) -> None:
    """Copy the rows of the founded crews for all the others.

    Args:
        connection: the database.
        table: whose rows.
        offsets: by how much each number of a row is higher in the next crew; also one in a text.
        founded: how many crews there are.
        crews: how many there are to be.
    """
    number = _numbers(-(-crews // founded) - 1)
    columns = [column for column in table.c if column.name not in ("id", "seq")]
    columns += [column for column in table.c if column.name == "id" and "id" in offsets]
    whose = next((name for name in _WHOSE if name in offsets), None)
    copied = [
        _moved(column, number.c.n * founded * offsets[column.name])
        if column.name in offsets
        else column
        for column in columns
    ]
    rows = select(*copied).select_from(table.join(number, literal(value=True)))
    if whose is not None:
        last = crews * offsets[whose]
        rows = rows.where(table.c[whose] + number.c.n * founded * offsets[whose] <= last)
    connection.execute(insert(table).from_select(columns, rows, include_defaults=False))


def _moved(column: ColumnElement[Any], by: ColumnElement[int]) -> ColumnElement[Any]:
    if isinstance(column.type, Text):
        return cast(cast(column, Integer) + by, Text)
    return column + by


def _numbers(last: int) -> CTE:
    """Give the numbers from 1 on; none if there are none."""
    first = select(literal(1).label("n")).where(literal(last) >= 1)
    numbers = first.cte("numbers", recursive=True)
    return numbers.union_all(select(numbers.c.n + 1).where(numbers.c.n < last))
