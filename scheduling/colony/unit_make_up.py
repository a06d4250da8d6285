"""What a unit's bees and brood follow from: its make-up, what was given since, and its queens."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from scheduling.colony.laying_spans import Span, laying_spans
from scheduling.colony.stock import Stock, brood_frame, shake, stocked
from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.values import MakeUp


@dataclass(frozen=True)
class Added:
    """Bees or brood put in on a later day, counted from make-up."""

    day: int
    stock: Stock


@dataclass(frozen=True, slots=True)
class Laying:
    """A queen's span of laying, in days from make-up; ``last`` is None while it goes on."""

    first: int
    last: int | None = None


@dataclass(frozen=True, slots=True)
class Plan:
    """All that decides a unit's bees and brood from the day of make-up on.

    Attributes:
        made_up_on: the day of make-up.
        told: what the keeper told of the make-up.
        stock: what that comes to.
        layings: when queens laid or are expected to lay.
        added: what was given to the unit since.

    """

    made_up_on: date
    told: MakeUp
    stock: Stock
    layings: tuple[Laying, ...] = ()
    added: tuple[Added, ...] = ()


def plan_of(entries: Sequence[Entry], expected_eggs: date | None = None) -> Plan | None:
    """Read the plan off a unit's entries, from its last make-up on; None where none was told.

    ``entries`` are the unit's standing entries, oldest first; ``expected_eggs`` the day on which
    a queen that was not seen to lay yet should begin.
    """
    made_up = last_make_up(entries)
    if made_up is None:
        return None
    start, told = made_up
    since = [entry for entry in entries if entry.on >= start]
    layings = tuple([_laying(span, start) for span in laying_spans(since, expected_eggs)])
    return Plan(start, told, stocked(told), layings, _added(since, start))


def last_make_up(entries: Sequence[Entry]) -> tuple[date, MakeUp] | None:
    """Give the day of the last make-up and what was told of it, None where none was told."""
    for entry in reversed(entries):
        if entry.kind is EntryKind.MADE_UP:
            assert entry.value is None or isinstance(entry.value, MakeUp)  # noqa: S101 - checked
            return entry.on, entry.value or MakeUp()
    return None


def strength_told(told: MakeUp) -> bool:
    """Tell whether bees or brood of a make-up were told; else all of it is as usual."""
    return not (told.brood_frames is told.bee_frames is told.nurse_shakes is None)


_GIVEN: dict[EntryKind, Stock] = {
    EntryKind.BROOD_ADDED: brood_frame(),
    EntryKind.BEES_ADDED: shake(),
}


def _added(entries: Iterable[Entry], start: date) -> tuple[Added, ...]:
    given = [entry for entry in entries if entry.kind in _GIVEN]
    return tuple([Added((entry.on - start).days, _GIVEN[entry.kind]) for entry in given])


def _laying(span: Span, start: date) -> Laying:
    first, last = span
    return Laying((first - start).days, (last - start).days if last is not None else None)
