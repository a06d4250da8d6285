"""A unit's account of bees and brood, by date, from its entries."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from scheduling.colony.course import Added, Course, Laying, walk
from scheduling.colony.queens import Span, laying_spans
from scheduling.colony.stock import Stock, brood_frame, shake, stocked
from scheduling.entries import Entry, EntryKind
from scheduling.trade import table
from scheduling.trade.window import days_after
from scheduling.values import MakeUp


@dataclass(frozen=True)
class Account:
    """Bees and brood of one unit by the yard's local date.

    Attributes:
        made_up_on: the day of make-up, on which the account begins.
        told: what the keeper told of the make-up.
        course: bees and brood by day.
        layings: when queens laid or are expected to lay, in days from make-up.
        added: what was given to the unit since.

    """

    made_up_on: date
    told: MakeUp
    course: Course
    layings: tuple[Laying, ...] = ()
    added: tuple[Added, ...] = ()

    @property
    def last(self) -> date:
        """The last date for which the account holds."""
        return days_after(self.made_up_on, len(self.course.bees) - 1)

    def day(self, on: date) -> int:
        """Give the day of the course for a date."""
        return (on - self.made_up_on).days

    def on(self, day: int) -> date:
        """Give the date of a day of the course."""
        return days_after(self.made_up_on, day)

    def bees(self, on: date) -> float:
        """Give the bees on a date on which the account holds."""
        return self.course.bees[self.day(on)]


def account_of(entries: Sequence[Entry], expected_eggs: date | None = None) -> Account | None:
    """Work out the account from the last make-up on; None where no make-up was told.

    ``entries`` are the unit's standing entries, oldest first; ``expected_eggs`` the day on which
    a queen that was not seen to lay yet should begin.
    """
    made_up = last_make_up(entries)
    if made_up is None:
        return None
    start, told = made_up
    since = [entry for entry in entries if entry.on >= start]
    layings = tuple(_laying(span, start) for span in laying_spans(since, expected_eggs))
    days = table.ACCOUNT_HOLDS.days
    added = tuple(_added(since, start))
    course = walk(stocked(told), layings, added, days)
    return Account(start, told, course, layings, added)


def last_make_up(entries: Sequence[Entry]) -> tuple[date, MakeUp] | None:
    """Give the day of the last make-up and what was told of it, None where none was told."""
    for entry in reversed(entries):
        if entry.kind is EntryKind.MADE_UP:
            assert entry.value is None or isinstance(entry.value, MakeUp)  # noqa: S101 - checked
            return entry.on, entry.value or MakeUp()
    return None


def strength_told(entries: Sequence[Entry]) -> bool:
    """Tell whether bees or brood of the last make-up were told; else all of it is as usual."""
    made_up = last_make_up(entries)
    if made_up is None:
        return False
    told = made_up[1]
    parts = (told.brood_frames, told.bee_frames, told.nurse_shakes)
    return any(part is not None for part in parts)


_GIVEN: dict[EntryKind, Stock] = {
    EntryKind.BROOD_ADDED: brood_frame(),
    EntryKind.BEES_ADDED: shake(),
}


def _added(entries: Iterable[Entry], start: date) -> list[Added]:
    given = ((entry.on, _GIVEN.get(entry.kind)) for entry in entries)
    return [Added((on - start).days, stock) for on, stock in given if stock is not None]


def _laying(span: Span, start: date) -> Laying:
    first, last = span
    return Laying((first - start).days, (last - start).days if last is not None else None)
