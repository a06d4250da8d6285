"""A unit's stores, day by day from when they were last seen."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import lru_cache

from scheduling.colony.account import Account
from scheduling.colony.course import Course, walk
from scheduling.colony.forage import ForageWords
from scheduling.colony.stock import stocked
from scheduling.colony.stores import eaten, kilograms, stores_of
from scheduling.entries import Entry, EntryKind
from scheduling.trade import table
from scheduling.trade.window import days_after
from scheduling.values import Feed, Forage, MakeUp, Stores


@dataclass(frozen=True)
class Larder:
    """What a unit has to eat, by date.

    Attributes:
        seen_on: the day on which its stores were seen.
        kilograms: stores at the end of each day from then on.

    """

    seen_on: date
    kilograms: tuple[float, ...]

    def stores(self, on: date) -> float:
        """Give the kilograms of stores on a date; before they were seen and after the end, those.

        The reckoning ends sixty days after the stores were seen.
        """
        day = (on - self.seen_on).days
        return self.kilograms[max(0, min(day, len(self.kilograms) - 1))]

    def under(self, kilograms: float, since: date) -> date | None:
        """Give the first date from ``since`` on with less than so many kilograms."""
        first = max(0, (since - self.seen_on).days)
        days = range(first, len(self.kilograms))
        day = next((day for day in days if self.kilograms[day] < kilograms), None)
        return days_after(self.seen_on, day) if day is not None else None


@dataclass(frozen=True)
class Provisions:
    """Stores seen on a day, and the kilograms of stores fed since, each with its day."""

    seen_on: date
    seen: float
    fed: tuple[tuple[date, float], ...] = ()


def provisions(entries: Sequence[Entry]) -> Provisions | None:
    """Collect the stores last seen and what was fed since; None where either is not known."""
    told: Provisions | None = None
    for entry in entries:
        if entry.kind in _SEEN:
            told = _seen(entry)
        elif entry.kind in _UNKNOWN_AFTER:
            told = None
        elif entry.kind is EntryKind.FED and told is not None:
            told = _with_feed(told, entry)
    return told


def stored(
    told: Provisions, account: Account | None, forage: ForageWords, kept_in: frozenset[date]
) -> Larder:
    """Reckon the stores of each day: what was there, and was fed, less what was eaten.

    ``account`` tells how many mouths there are; without one a usual unit is taken. On the days
    in ``kept_in`` cold or wet kept the bees from flying. In a flow the bees find what they eat,
    no more; without a word, or in a dearth, nothing.
    """
    dates = [days_after(told.seen_on, ahead) for ahead in range(DAYS + 1)]
    in_flow = [day for day, on in enumerate(dates) if forage.on(on) is Forage.FLOW]
    course = _left(
        told.seen,
        tuple(((on - told.seen_on).days, amount) for on, amount in told.fed),
        account.course if account is not None else None,
        account.day(told.seen_on) if account is not None else 0,
        frozenset(in_flow),
        frozenset(day for day, on in enumerate(dates) if on in kept_in),
    )
    return Larder(told.seen_on, course)


DAYS = table.ACCOUNT_HOLDS.days
"""Days for which stores are reckoned, from when they were seen."""


@lru_cache(maxsize=4096)
def _left(
    seen: float,
    fed: tuple[tuple[int, float], ...],
    course: Course | None,
    begun: int,
    in_flow: frozenset[int],
    kept_in: frozenset[int],
) -> tuple[float, ...]:
    """Give the stores of each day, in days from when they were seen; units alike share one.

    ``begun`` is the day of the course on which they were seen.
    """
    given = [0.0] * (DAYS + 1)
    for day, amount in fed:
        if day <= DAYS:
            given[day] += amount
    left = [seen + given[0]]
    for day in range(1, DAYS + 1):
        gone = 0.0 if day in in_flow else _eaten(course, begun + day, day in kept_in)
        left.append(max(0.0, left[-1] - gone) + given[day])
    return tuple(left)


def _eaten(course: Course | None, day: int, kept_in: bool) -> float:
    if course is None or not 0 <= day < len(course.bees):
        return eaten(_USUAL_BEES, _USUAL_BROOD, kept_in=kept_in)
    return eaten(course.bees[day], course.brood(day), kept_in=kept_in)


_USUAL = stocked(None)
_USUAL_BEES = walk(_USUAL, days=1).bees[1]
_USUAL_BROOD = _USUAL.open_cells + _USUAL.sealed_cells
"""Mouths in a unit of which nothing is known: those of a usual one after its first night."""


_SEEN = frozenset({EntryKind.STORES, EntryKind.MADE_UP})
_UNKNOWN_AFTER = frozenset({EntryKind.ROBBED, EntryKind.ABSCONDED, EntryKind.DEAD})


def _seen(entry: Entry) -> Provisions | None:
    if isinstance(entry.value, Stores):
        return Provisions(entry.on, kilograms(entry.value.deep_frames))
    if isinstance(entry.value, MakeUp) and entry.value.food_frames is not None:
        return Provisions(entry.on, kilograms(entry.value.food_frames))
    return None


def _with_feed(told: Provisions, entry: Entry) -> Provisions | None:
    assert entry.value is None or isinstance(entry.value, Feed)  # noqa: S101 - checked when made
    stores = stores_of(entry.value)
    if stores is None:
        return None
    return Provisions(told.seen_on, told.seen, (*told.fed, (entry.on, stores)))
