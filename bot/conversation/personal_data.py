"""What is kept about a person: all of it as JSON, and how it is forgotten."""

import json
from collections.abc import Iterator, Sequence
from datetime import date, datetime, time
from typing import Any

from sqlalchemy import ColumnElement, Table, or_, select
from sqlalchemy.orm import Session

from bot.conversation.crew_changes import others_reached
from bot.conversation.departures import depart
from bot.delivery.forget_messages import forget_messages, forget_name_elsewhere
from scheduling.records.addresses import Address
from scheduling.records.crew_records import CrewRecords
from scheduling.records.crews import hold_crews
from scheduling.records.csv_rows import COLUMNS, cells_of
from scheduling.records.engine import connection_of
from scheduling.records.forgetting import forget_places, take_name_out
from scheduling.records.people import Person
from scheduling.records.tables import Base, EntryRow, PersonRow, table_of

_NAMES_A_PERSON = ("person_id", "made_by", "used_by")
"""Columns with the number of a person."""


def data_of(session: Session, people: Sequence[Person]) -> str:
    """Give all that is kept about somebody, who is a person in each of their crews, as JSON.

    Each table has its own part, with every row that names the person or one of their addresses.
    """
    ways = ways_of(session, people)
    found: dict[str, Any] = {}
    for table in Base.metadata.sorted_tables:
        which = list(_theirs(table, people, ways))
        if which and table is not table_of(EntryRow):
            rows = connection_of(session).execute(select(table).where(or_(*which))).mappings()
            found[table.name] = [{key: _plain(row[key]) for key in row} for row in rows]
    found["entry"] = [row for person in people for row in _entries(session, person)]
    kept = {name: rows for name, rows in found.items() if rows}
    return json.dumps(kept, ensure_ascii=False, indent=1)


def _theirs(
    table: Table, people: Sequence[Person], ways: Sequence[Address]
) -> Iterator[ColumnElement[bool]]:
    numbers = [person.id for person in people]
    if table is table_of(PersonRow):
        yield table.c.id.in_(numbers)
    for name in _NAMES_A_PERSON:
        if name in table.columns:
            yield table.c[name].in_(numbers)
    if {"channel", "address"} <= set(table.columns.keys()):
        for way in ways:
            yield (table.c.channel == way.channel) & (table.c.address == way.address)


def _entries(session: Session, person: Person) -> Iterator[dict[str, str]]:
    """What a person noted, as an export shows it."""
    for entry in CrewRecords(session, person.crew_id).entries():
        if entry.person == person.name:
            yield dict(zip(COLUMNS, cells_of(entry), strict=True))


def _plain(value: Any) -> Any:
    return value.isoformat() if isinstance(value, date | datetime | time) else value


def ways_of(session: Session, people: Sequence[Person]) -> list[Address]:
    """Give where somebody is reached, in all of their crews, each address once."""
    ways = (CrewRecords(session, each.crew_id).addresses(each.id) for each in people)
    return list(dict.fromkeys(way for mine in ways for way in mine))


def forget(session: Session, people: Sequence[Person], now: datetime) -> None:
    """Forget somebody in all of their crews; what they noted stays there without a name.

    Args:
        session: the transaction.
        people: who they are in each of their crews.
        now: aware instant.
    """
    hold_crews(session, {each.crew_id for each in people})
    ways = ways_of(session, people)
    for each in people:
        depart(session, each, now)
        nameless = take_name_out(session, each, now)
        forget_name_elsewhere(session, each.crew_id, each.name, nameless)
        if not others_reached(CrewRecords(session, each.crew_id), each):
            forget_places(session, each.crew_id)
    forget_messages(session, [each.id for each in people], ways)
