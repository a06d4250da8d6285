"""A unit's stores, day by day from when they were last seen."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from scheduling.colony.account import Account
from scheduling.colony.course import walk
from scheduling.colony.forage import ForageWords, forage_words
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


def larder_of(
    entries: Sequence[Entry], account: Account | None, days_kept_in: Sequence[date] = ()
) -> Larder | None:
    """Work out a unit's stores; None where they were not seen, or food was given by no measure.

    ``account`` tells how many mouths there are; without one a usual unit is taken. On
    ``days_kept_in`` cold or wet kept the bees from flying.
    """
    told = provisions(entries)
    if told is None:
        return None
    return stored(told, account, forage_words(entries), frozenset(days_kept_in))


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

    In a flow the bees find what they eat, no more; without a word, or in a dearth, nothing.
    """
    fed: dict[date, float] = {}
    for on, amount in told.fed:
        fed[on] = fed.get(on, 0) + amount
    left = told.seen + fed.get(told.seen_on, 0)
    course = [left]
    for ahead in range(1, table.ACCOUNT_HOLDS.days + 1):
        day = days_after(told.seen_on, ahead)
        gone = 0.0 if forage.on(day) is Forage.FLOW else _eaten(account, day, day in kept_in)
        left = max(0.0, left - gone) + fed.get(day, 0)
        course.append(left)
    return Larder(told.seen_on, tuple(course))


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


_USUAL = stocked(None)


def _eaten(account: Account | None, day: date, kept_in: bool) -> float:
    if account is None or not account.made_up_on <= day <= account.last:
        return eaten(_USUAL_BEES, _USUAL_BROOD, kept_in=kept_in)
    number = account.day(day)
    return eaten(account.course.bees[number], account.course.brood(number), kept_in=kept_in)


_USUAL_BEES = walk(_USUAL, days=1).bees[1]
_USUAL_BROOD = _USUAL.open_cells + _USUAL.sealed_cells
"""Mouths in a unit of which nothing is known: those of a usual one after its first night."""
