"""The log of a crew: entries are added and read, and that is all that can be done with them."""

from collections.abc import Iterable
from datetime import date

from sqlalchemy import ColumnElement, Integer, bindparam, func, or_, select

from scheduling.entries import Entry, struck
from scheduling.entry_kinds import EntryKind
from scheduling.places import UnitName
from scheduling.records.calendar_cache import check_log_again
from scheduling.records.crews import hold_crew
from scheduling.records.engine import connection_of
from scheduling.records.entry_rows import COLUMNS, entries_of, row_of
from scheduling.records.names import folded
from scheduling.records.people import PeopleOfCrew
from scheduling.records.tables import EntryRow, PersonRow, UnitRow, YardRow
from scheduling.records.upsert import insert_each_or_ignore
from scheduling.records.whole_log import whole_log
from scheduling.records.yards import YardsOfCrew

_AT_ONCE = 5000
"""Uids asked for in one statement; databases limit how many values one may name."""


_FEW = 20
"""Up to so many boxes are asked for by their numbers."""


_KNOWN = select(EntryRow.uid).where(
    EntryRow.crew_id == bindparam("crew", type_=Integer),
    EntryRow.uid.in_(bindparam("uids", expanding=True)),
)


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
        hold_crew(self._session, self._crew_id)
        _refuse_repeated(adding)
        yards, people = self._yard_ids(), self._person_ids()
        self._refuse_strange_units(adding)
        rows = [
            row_of(
                entry,
                crew_id=self._crew_id,
                yard_id=_found(yards, "yard", entry.place.yard),
                person_id=_found(people, "person", entry.person),
            )
            for entry in adding
        ]
        if len(insert_each_or_ignore(self._session, EntryRow, rows) if rows else []) < len(rows):
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
        found = (
            select(*COLUMNS)
            .select_from(EntryRow)
            .join(YardRow, YardRow.id == EntryRow.yard_id)
            .join(PersonRow, PersonRow.id == EntryRow.person_id)
            .where(EntryRow.crew_id == self._crew_id, *conditions)
            .order_by(EntryRow.seq)
        )
        return tuple(entries_of(self._session.execute(found)))

    def _messages_with_news(self, person_id: int) -> list[tuple[str, str]]:
        newest_first = (
            select(EntryRow.channel, EntryRow.message)
            .where(EntryRow.crew_id == self._crew_id, EntryRow.person_id == person_id)
            .where(EntryRow.message.is_not(None), EntryRow.kind != EntryKind.STRIKE)
            .group_by(EntryRow.channel, EntryRow.message)
            .order_by(func.max(EntryRow.seq).desc())
        )
        return [(channel, str(message)) for channel, message in self._session.execute(newest_first)]

    def _refuse_strange_units(self, entries: list[Entry]) -> None:
        named = {
            (folded(place.yard), place.unit): place
            for place in (entry.place for entry in entries)
            if place.unit is not None
        }
        strange = named.keys() - self._units_of({unit.box for _, unit in named})
        if strange:
            raise LookupError(f"this crew has no unit {named[min(strange)]}")

    def _units_of(self, boxes: set[int]) -> set[tuple[str, UnitName]]:
        of_crew = select(YardRow.name_folded, UnitRow.box, UnitRow.letter).join(
            UnitRow, UnitRow.yard_id == YardRow.id
        )
        of_crew = of_crew.where(YardRow.crew_id == self._crew_id)
        if len(boxes) <= _FEW:
            of_crew = of_crew.where(UnitRow.box.in_(boxes))
        found = self._session.execute(of_crew)
        return {(yard, UnitName(box, letter)) for yard, box, letter in found}

    def _yard_ids(self) -> dict[str, int]:
        of_crew = select(YardRow.name_folded, YardRow.id).where(YardRow.crew_id == self._crew_id)
        return dict(self._session.execute(of_crew).all())

    def _person_ids(self) -> dict[str, int]:
        of_crew = select(PersonRow.name_folded, PersonRow.id)
        found = self._session.execute(of_crew.where(PersonRow.crew_id == self._crew_id))
        return dict(found.all())


def _refuse_repeated(entries: list[Entry]) -> None:
    if len({entry.uid for entry in entries}) < len(entries):
        raise ValueError("two of the entries have one uid")


def _found(numbers: dict[str, int], what: str, name: str) -> int:
    number = numbers.get(folded(name))
    if number is None:
        raise LookupError(f"this crew has no {what} {name!r}")
    return number
