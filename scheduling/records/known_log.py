"""A crew's log as this process knows it: only what was added since is read from the database."""

from collections.abc import Mapping
from dataclasses import dataclass

from sqlalchemy import func, literal, select, union_all
from sqlalchemy.orm import Session

from scheduling.entries import Entry
from scheduling.records.entry_rows import COLUMNS, entries_of
from scheduling.records.memory import recall, remember
from scheduling.records.tables import EntryRow, PersonRow, YardRow

_Names = Mapping[tuple[str, int], str]


@dataclass(frozen=True)
class KnownLog:
    """A log as it was read.

    Attributes:
        entries: all of it, in the order it was written.
        last: the number of its last row; 0 of an empty one.
        names: the names of yards and people that stand in its entries.

    """

    entries: tuple[Entry, ...]
    last: int
    names: _Names


def whole_log(session: Session, crew_id: int) -> tuple[Entry, ...]:
    """Give a crew's log, reading only what this process does not know of it.

    What is known holds as long as the last known row is still the last known entry, no more and
    no fewer rows stand before it, and nobody was renamed; else the whole is read anew.
    """
    known = recall(session, crew_id, KnownLog)
    length, names = _length_and_names(session, crew_id)
    log = _continued(session, crew_id, known, names) if known is not None else None
    if log is None or len(log.entries) != length:
        log = _read(session, crew_id, names)
    if log is not known:
        remember(session, crew_id, log)
    return log.entries


def _continued(session: Session, crew_id: int, known: KnownLog, names: _Names) -> KnownLog | None:
    """Add what came since; None if the log is not the one that is known."""
    if not known.entries or known.names != names:
        return None
    from_last = _read(session, crew_id, names, known.last)
    if not from_last.entries or from_last.entries[0] != known.entries[-1]:
        return None
    if len(from_last.entries) == 1:
        return known
    return KnownLog(known.entries + from_last.entries[1:], from_last.last, names)


def _read(session: Session, crew_id: int, names: _Names, since: int = 0) -> KnownLog:
    found = (
        select(*COLUMNS, EntryRow.seq)
        .select_from(EntryRow)
        .join(YardRow, YardRow.id == EntryRow.yard_id)
        .join(PersonRow, PersonRow.id == EntryRow.person_id)
        .where(EntryRow.crew_id == crew_id, EntryRow.seq >= since)
        .order_by(EntryRow.seq)
    )
    rows = session.execute(found).all()
    entries = tuple(entries_of(row[:-1] for row in rows))
    return KnownLog(entries, int(rows[-1].seq) if rows else 0, names)


def _length_and_names(session: Session, crew_id: int) -> tuple[int, _Names]:
    yards = select(literal("yard"), YardRow.id, YardRow.name).where(YardRow.crew_id == crew_id)
    people = select(literal("person"), PersonRow.id, PersonRow.name)
    people = people.where(PersonRow.crew_id == crew_id)
    entries = select(literal("entries"), func.count(), literal(""))
    entries = entries.where(EntryRow.crew_id == crew_id)
    found = session.execute(union_all(entries, yards, people)).all()
    length = next(number for what, number, _ in found if what == "entries")
    return length, {(what, number): name for what, number, name in found if what != "entries"}
