"""A crew's log as this process knows it: only what was added since is read from the database."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from sqlalchemy import Integer, bindparam, func, literal, select, union_all
from sqlalchemy.orm import Session

from scheduling.entries import Entry
from scheduling.records.connection import connection_of
from scheduling.records.entry_rows import COLUMNS, entries_of
from scheduling.records.memory import recall, remember
from scheduling.records.names import folded
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

    def numbers(self, what: str) -> dict[str, int]:
        """Give the numbers of the crew's yards ("yard") or people ("person") by folded names."""
        return {folded(name): number for (kind, number), name in self.names.items() if kind == what}

    def reads_as_written(self, entries: Iterable[Entry]) -> bool:
        """Tell whether entries name yards and people as they would be read again."""
        people = {name for (kind, _), name in self.names.items() if kind == "person"}
        yards = {name for (kind, _), name in self.names.items() if kind == "yard"}
        return all(entry.person in people and entry.place.yard in yards for entry in entries)


@dataclass(frozen=True)
class _Glance:
    """What the database says of a log at a glance.

    Attributes:
        length: how many entries it has.
        last_known: the uid of the entry at the number of the last known row; "" for none.
        names: of its yards and people.

    """

    length: int
    last_known: str
    names: _Names


def whole_log(session: Session, crew_id: int) -> tuple[Entry, ...]:
    """Give a crew's log, reading only what this process does not know of it.

    What is known holds as long as the last known row is still the last known entry, no more and
    no fewer rows stand before it, and nobody was renamed; else the whole is read anew.
    """
    known = recall(session, crew_id, KnownLog)
    seen = _glance(session, crew_id, known.last if known is not None else 0)
    log = _continued(session, crew_id, known, seen) if known is not None else None
    if log is None or len(log.entries) != seen.length:
        log = _read(session, crew_id, seen.names)
    # Also what was known all along: in this transaction it has been seen to hold.
    remember(session, crew_id, log)
    return log.entries


def note_added(
    session: Session, crew_id: int, known: KnownLog, entries: Sequence[Entry], last: int
) -> tuple[Entry, ...]:
    """Add what this transaction wrote itself to the log that it read before.

    Args:
        session: the transaction.
        crew_id: the crew.
        known: the log that it read.
        entries: what was added to the end of the log, as it would be read.
        last: the number of the last row.

    Returns:
        The whole log.

    """
    log = KnownLog(known.entries + tuple(entries), last, known.names)
    remember(session, crew_id, log)
    return log.entries


def _continued(session: Session, crew_id: int, known: KnownLog, seen: _Glance) -> KnownLog | None:
    """Add what came since; None if the log is not the one that is known."""
    if not known.entries or (known.entries[-1].uid, known.names) != (seen.last_known, seen.names):
        return None
    if len(known.entries) == seen.length:
        return known
    since = _read(session, crew_id, seen.names, known.last)
    return KnownLog(known.entries + since.entries, since.last, seen.names)


def _read(session: Session, crew_id: int, names: _Names, after: int = 0) -> KnownLog:
    found = (
        select(*COLUMNS, EntryRow.seq)
        .select_from(EntryRow)
        .join(YardRow, YardRow.id == EntryRow.yard_id)
        .join(PersonRow, PersonRow.id == EntryRow.person_id)
        .where(EntryRow.crew_id == crew_id, EntryRow.seq > after)
        .order_by(EntryRow.seq)
    )
    rows = session.execute(found).all()
    entries = tuple(entries_of(row[:-1] for row in rows))
    return KnownLog(entries, int(rows[-1].seq) if rows else after, names)


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
