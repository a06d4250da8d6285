"""A crew's whole log: its rows as entries and back, read through the cache, only what is new."""

from collections.abc import Iterable, Iterator
from functools import cache, lru_cache
from typing import Any, NamedTuple

from sqlalchemy import Integer, Select, bindparam, func, literal, select, union_all
from sqlalchemy.orm import Session

from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName
from scheduling.records.calendar_cache import CachedLog, Names, cache_log, cached
from scheduling.records.engine import connection_of
from scheduling.records.tables import EntryRow, PersonRow, YardRow
from scheduling.value_forms import Plain, Scalar, value_from_json, value_to_json
from scheduling.values import Value


class _Glance(NamedTuple):
    """What the database says of a log at a glance."""

    length: int
    last_known: str
    """The uid of the entry at the number of the last known row; "" for none."""
    names: Names


def whole_log(session: Session, crew_id: int) -> tuple[Entry, ...]:
    """Give a crew's log, reading only what the cache does not hold of it."""
    crew = cached(session, crew_id)
    if crew.log is not None and crew.checked:
        return crew.log.entries
    seen = _glance(session, crew_id, crew.log.last if crew.log is not None else 0)
    log = _continued(session, crew_id, crew.log, seen) if crew.log is not None else None
    if log is None or len(log.entries) != seen.length:
        log = _read(session, crew_id, seen.names)
    cache_log(session, crew_id, log)
    return log.entries


def _continued(session: Session, crew_id: int, known: CachedLog, seen: _Glance) -> CachedLog | None:
    """Add what came since; None if the log is not the one that is known."""
    if not known.entries or (known.entries[-1].uid, known.names) != (seen.last_known, seen.names):
        return None
    if len(known.entries) == seen.length:
        return known
    since = _read(session, crew_id, seen.names, known.last)
    return CachedLog(known.entries + since.entries, since.last, seen.names)


def _read(session: Session, crew_id: int, names: Names, after: int = 0) -> CachedLog:
    rows = session.execute(rows_of_log(crew_id).where(EntryRow.seq > after)).all()
    entries = tuple(entries_of(row[:-1] for row in rows))
    return CachedLog(entries, int(rows[-1].seq) if rows else after, names)


_CREW, _LAST = bindparam("crew", type_=Integer), bindparam("last", type_=Integer)
_AT_A_GLANCE = union_all(
    select(literal("entries"), func.count(), literal("")).where(EntryRow.crew_id == _CREW),
    select(literal("last"), literal(0), EntryRow.uid).where(
        EntryRow.seq == _LAST, EntryRow.crew_id == _CREW
    ),
    select(literal("yard"), YardRow.id, YardRow.name).where(YardRow.crew_id == _CREW),
    select(literal("person"), PersonRow.id, PersonRow.name).where(PersonRow.crew_id == _CREW),
)


def _glance(session: Session, crew_id: int, last: int) -> _Glance:
    length, last_known, names = 0, "", {}
    seen = connection_of(session).execute(_AT_A_GLANCE, {"crew": crew_id, "last": last})
    for what, number, name in seen:
        if what == "entries":
            length = number
        elif what == "last":
            last_known = name
        else:
            names[(what, number)] = name
    return _Glance(length, last_known, names)


COLUMNS = (
    EntryRow.uid,
    YardRow.name,
    EntryRow.box,
    EntryRow.letter,
    EntryRow.batch,
    EntryRow.kind,
    EntryRow.value,
    EntryRow.day,
    EntryRow.recorded_at,
    PersonRow.name,
    EntryRow.channel,
    EntryRow.message,
    EntryRow.note,
)
"""What an entry is made of, in the order in which ``entries_of`` takes it."""


def rows_of_log(crew_id: int) -> Select[*tuple[Any, ...]]:
    """Select a crew's log in the order it was written: what an entry is made of, and its number."""
    return (
        select(*COLUMNS, EntryRow.seq)
        .select_from(EntryRow)
        .join(YardRow, YardRow.id == EntryRow.yard_id)
        .join(PersonRow, PersonRow.id == EntryRow.person_id)
        .where(EntryRow.crew_id == crew_id)
        .order_by(EntryRow.seq)
    )


def row_of(entry: Entry, *, crew_id: int, yard_id: int, person_id: int) -> dict[str, Any]:
    """Put an entry as the columns of a row, with its names already turned into numbers."""
    unit = entry.place.unit
    return {
        "uid": entry.uid,
        "crew_id": crew_id,
        "yard_id": yard_id,
        "box": None if unit is None else unit.box,
        "letter": None if unit is None else unit.letter,
        "batch": entry.place.batch,
        "kind": str(entry.kind),
        "value": value_to_json(entry.value),
        "day": entry.on,
        "recorded_at": entry.recorded_at,
        "person_id": person_id,
        "channel": entry.channel,
        "message": entry.message,
        "note": entry.note,
    }


def entries_of(rows: Iterable[Any]) -> Iterator[Entry]:
    """Make the entries of rows of ``COLUMNS``; what stands in many rows is made once."""
    place_of = cache(_place)
    for uid, yard, box, letter, batch, kind, value, day, at, person, channel, message, note in rows:
        place, told = place_of(yard, box, letter, batch), EntryKind(kind)
        yield Entry(uid, place, told, _value(told, value), day, at, person, channel, message, note)


def _place(yard: str, box: int | None, letter: str | None, batch: str | None) -> Place:
    return Place(yard, None if box is None else UnitName(box, letter or ""), batch)


def _value(kind: EntryKind, form: Plain) -> Value | None:
    if form is None or isinstance(form, dict):
        return value_from_json(kind, form)
    return _value_of_one_part(kind, form)


@lru_cache(maxsize=4096, typed=True)
def _value_of_one_part(kind: EntryKind, form: Scalar) -> Value | None:
    return value_from_json(kind, form)
