"""The log of a crew: entries are added and read, and that is all that can be done with them."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlalchemy import (
    ColumnElement,
    CompoundSelect,
    Integer,
    bindparam,
    func,
    literal,
    null,
    or_,
    select,
    union_all,
)

from scheduling.entries import Entry, struck
from scheduling.entry_kinds import EntryKind
from scheduling.places import UnitName
from scheduling.records.calendar_cache import check_log_again
from scheduling.records.crews import folded, hold_crew
from scheduling.records.engine import connection_of
from scheduling.records.people import PeopleOfCrew
from scheduling.records.tables import EntryRow, PersonRow, UnitRow, YardRow
from scheduling.records.upsert import insert_each_or_ignore
from scheduling.records.whole_log import entries_of, row_of, rows_of_log, whole_log
from scheduling.records.yards import YardsOfCrew

_AT_ONCE = 5000
"""Uids asked for in one statement; databases limit how many values one may name."""


_KNOWN = select(EntryRow.uid).where(
    EntryRow.crew_id == bindparam("crew", type_=Integer),
    EntryRow.uid.in_(bindparam("uids", expanding=True)),
)

_CREW = bindparam("crew", type_=Integer)
_OF_BOX = (UnitRow.yard_id == YardRow.id) & UnitRow.box.in_(bindparam("boxes", expanding=True))
_NAMED: CompoundSelect[Any] = union_all(
    select(literal("yard"), YardRow.id, YardRow.name_folded, UnitRow.box, UnitRow.letter)
    .outerjoin(UnitRow, _OF_BOX)
    .where(YardRow.crew_id == _CREW),
    select(literal("person"), PersonRow.id, PersonRow.name_folded, null(), null()).where(
        PersonRow.crew_id == _CREW
    ),
)
"""The yards with the units of some boxes, and the people: whatever an entry may name."""


class LogOfCrew(PeopleOfCrew, YardsOfCrew):
    """The entries of one crew."""

    def append(self, entries: Iterable[Entry]) -> None:
        """Add entries to the end of the log, in the order given.

        The order of a crew's log is the order in which its transactions were kept.

        Raises:
            LookupError: a yard, unit or person is not of this crew; nothing is added.
            ValueError: an entry of that uid is in the log, or is given twice. Some may have been
                added, so that the transaction is to be undone.
        """
        adding = list(entries)
        if not adding:
            return
        hold_crew(self._session, self._crew_id)
        _refuse_repeated(adding)
        known = self._known({entry.place.unit.box for entry in adding if entry.place.unit})
        known.refuse_strange_units(adding)
        rows = [
            row_of(
                entry,
                crew_id=self._crew_id,
                yard_id=_found(known.yards, "yard", entry.place.yard),
                person_id=_found(known.people, "person", entry.person),
            )
            for entry in adding
        ]
        if len(insert_each_or_ignore(self._session, EntryRow, rows)) < len(rows):
            raise ValueError("an entry of that uid is in the log already")
        check_log_again(self._session, self._crew_id)

    def entries(self, yard: str | None = None, since_day: date | None = None) -> tuple[Entry, ...]:
        """Give the log in the order it was written, of all yards or of one.

        With ``since_day`` only what speaks of that local date or later, and every strike, because
        a strike may be dated otherwise than what it strikes.

        Raises:
            LookupError: this crew has no such yard.
        """
        if yard is None and since_day is None:
            return whole_log(self._session, self._crew_id)
        conditions: list[ColumnElement[bool]] = []
        if yard is not None:
            conditions.append(EntryRow.yard_id == self._yard_row(yard).id)
        if since_day is not None:
            conditions.append(or_(EntryRow.day >= since_day, EntryRow.kind == EntryKind.STRIKE))
        return self._entries(*conditions)

    def entries_from_message(self, channel: str, message: str) -> tuple[Entry, ...]:
        """Give what one message recorded, in the order it was written."""
        return self._entries(EntryRow.channel == channel, EntryRow.message == message)

    def last_said(self, person_id: int) -> tuple[Entry, ...]:
        """Give what an undo takes back: the person's newest message that still counts.

        Of that message all entries that are not struck, its own strikes among them: striking
        those puts back what the message had corrected. A message that only strikes is passed over.

        Raises:
            LookupError: the person is not of this crew.
        """
        self._person_row(person_id)
        gone = struck(self._entries(EntryRow.kind == EntryKind.STRIKE))
        for channel, message in self._messages_with_news(person_id):
            left = [e for e in self.entries_from_message(channel, message) if e.uid not in gone]
            if any(entry.kind is not EntryKind.STRIKE for entry in left):
                return tuple(left)
        return ()

    def known_uids(self, uids: Iterable[str]) -> frozenset[str]:
        """Tell which of these uids are in this crew's log."""
        asked = list(uids)
        known: set[str] = set()
        for start in range(0, len(asked), _AT_ONCE):
            some = {"crew": self._crew_id, "uids": asked[start : start + _AT_ONCE]}
            known.update(connection_of(self._session).scalars(_KNOWN, some))
        return frozenset(known)

    def _entries(self, *conditions: ColumnElement[bool]) -> tuple[Entry, ...]:
        rows = self._session.execute(rows_of_log(self._crew_id).where(*conditions))
        return tuple(entries_of(row[:-1] for row in rows))

    def _messages_with_news(self, person_id: int) -> list[tuple[str, str]]:
        newest_first = (
            select(EntryRow.channel, EntryRow.message)
            .where(EntryRow.crew_id == self._crew_id, EntryRow.person_id == person_id)
            .where(EntryRow.message.is_not(None), EntryRow.kind != EntryKind.STRIKE)
            .group_by(EntryRow.channel, EntryRow.message)
            .order_by(func.max(EntryRow.seq).desc())
        )
        return [(channel, str(message)) for channel, message in self._session.execute(newest_first)]

    def _known(self, boxes: set[int]) -> "_Known":
        """Read what entries about these boxes may name."""
        asked = {"crew": self._crew_id, "boxes": sorted(boxes)}
        known = _Known({}, {}, set())
        for what, number, name, box, letter in connection_of(self._session).execute(_NAMED, asked):
            (known.people if what == "person" else known.yards)[name] = number
            if box is not None:
                known.units.add((name, UnitName(box, letter)))
        return known


@dataclass(frozen=True)
class _Known:
    """The numbers of a crew's people and yards by their folded names, and units by yard."""

    people: dict[str, int]
    yards: dict[str, int]
    units: set[tuple[str, UnitName]]

    def refuse_strange_units(self, entries: list[Entry]) -> None:
        """Refuse a unit that does not stand; what was said of one that is gone can be struck."""
        named = {
            (folded(place.yard), place.unit): place
            for place in (e.place for e in entries if e.kind is not EntryKind.STRIKE)
            if place.unit is not None
        }
        strange = named.keys() - self.units
        if strange:
            raise LookupError(f"this crew has no unit {named[min(strange)]}")


def _refuse_repeated(entries: list[Entry]) -> None:
    if len({entry.uid for entry in entries}) < len(entries):
        raise ValueError("two of the entries have one uid")


def _found(numbers: dict[str, int], what: str, name: str) -> int:
    number = numbers.get(folded(name))
    if number is None:
        raise LookupError(f"this crew has no {what} {name!r}")
    return number
