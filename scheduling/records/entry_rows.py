"""An entry as a row of the log, and a row as an entry."""

from typing import Any

from scheduling.entries import Entry, EntryKind
from scheduling.places import Place, UnitName
from scheduling.plain_values import from_plain, plain
from scheduling.records.tables import EntryRow


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
        "value": plain(entry.value),
        "day": entry.on,
        "recorded_at": entry.recorded_at,
        "person_id": person_id,
        "channel": entry.channel,
        "message": entry.message,
        "note": entry.note,
    }


def entry_of(row: EntryRow, yard: str, person: str) -> Entry:
    """Make the entry of a row, with the names of its yard and person."""
    unit = None if row.box is None else UnitName(row.box, row.letter or "")
    kind = EntryKind(row.kind)
    return Entry(
        uid=row.uid,
        place=Place(yard, unit, row.batch),
        kind=kind,
        value=from_plain(kind, row.value),
        on=row.day,
        recorded_at=row.recorded_at,
        person=person,
        channel=row.channel,
        message=row.message,
        note=row.note,
    )
