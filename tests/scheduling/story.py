"""A unit's story, told in days from the first of May 2027; all of it invented."""

from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time, timedelta

from scheduling.check_kinds import CheckKind
from scheduling.checks.calendar import Calendar, work_out
from scheduling.checks.check import Check
from scheduling.checks.queen_dates import QueenDates
from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName
from scheduling.units.state import UnitState
from scheduling.values import Struck, Value

FIRST_OF_MAY = date(2027, 5, 1)
YARD = "river"


def may(number: int) -> date:
    """The day of May 2027; 32 is the first of June."""
    return FIRST_OF_MAY + timedelta(days=number - 1)


def unit(name: str = "4a", yard: str = YARD) -> Place:
    return Place(yard, unit=UnitName.parse(name))


@dataclass
class Story:
    """What happened, in the order in which it was written down."""

    place: Place = field(default_factory=unit)
    entries: list[Entry] = field(default_factory=list)

    def on(
        self, number: int, kind: EntryKind, value: Value | None = None, at: Place | None = None
    ) -> "Story":
        """Add what happened on that day of May."""
        count = len(self.entries)
        written = datetime.combine(may(number), time(12), tzinfo=UTC) + timedelta(seconds=count)
        place = at or self.place
        self.entries.append(Entry(f"e{count}", place, kind, value, may(number), written, "ida"))
        return self

    def strike(self, number: int, uid: str) -> "Story":
        """Take an earlier entry back on that day of May."""
        return self.on(number, EntryKind.STRIKE, Struck(uid))

    def calendar(self) -> Calendar:
        return work_out(self.entries)

    def state(self, at: Place | None = None) -> UnitState:
        return self.calendar().units[at or self.place]

    def queen(self, at: Place | None = None) -> QueenDates:
        return self.calendar().queen(at or self.place)

    def checks(self, at: Place | None = None) -> tuple[Check, ...]:
        return self.calendar().checks[at or self.place]

    def kinds(self) -> set[CheckKind]:
        """The kinds that are due or rest, without what is only foreseen."""
        return {check.kind for check in self.checks() if check.follows is None}

    def check(self, kind: CheckKind, at: Place | None = None) -> Check:
        """The one check of that kind."""
        (found,) = [check for check in self.checks(at) if check.kind is kind]
        return found

    def days(self, kind: CheckKind, at: Place | None = None) -> tuple[int, int | None, int | None]:
        """Not before, best and by of the one check of that kind, as days of May."""
        check = self.check(kind, at)
        return in_may(check.not_before), maybe_in_may(check.best), maybe_in_may(check.by)

    def rests(self) -> list[tuple[int, int]]:
        """First and last day of each rest in force, as days of May."""
        return [
            (in_may(check.not_before), in_may(check.by))
            for check in self.checks()
            if check.kind is CheckKind.REST and check.follows is None and check.by is not None
        ]


def in_may(day: date) -> int:
    return (day - FIRST_OF_MAY).days + 1


def maybe_in_may(day: date | None) -> int | None:
    return in_may(day) if day is not None else None
