"""An entry as a row of the log, and rows as entries."""

from collections.abc import Iterable, Iterator
from functools import cache, lru_cache
from typing import Any

from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName
from scheduling.records.tables import EntryRow, PersonRow, YardRow
from scheduling.value_json import Plain, Scalar, value_from_json, value_to_json
from scheduling.values import Value

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
