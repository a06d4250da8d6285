"""A unit's reserve of food, day by day from when it was last seen."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from scheduling.colony.account import Account, project
from scheduling.colony.stores import eaten, kilograms, stores_of
from scheduling.colony.unit_make_up import stocked
from scheduling.entries import Entry
from scheduling.entry_facts import ENTRY_FACTS
from scheduling.entry_kinds import FoodNews
from scheduling.trade import table
from scheduling.trade.constant import days_after
from scheduling.values import Feed, Forage, MakeUp, Stores, YardForage


@dataclass(frozen=True)
class ForageWords:
    """The keeper's words on forage, oldest first; each holds until the next, or for two weeks."""

    words: tuple[tuple[date, Forage], ...] = ()

    def on(self, day: date) -> Forage | None:
        """Give what holds on a date, None where nothing was said or it was too long ago."""
        if not self.words:
            return None
        said = [(since, forage) for since, forage in self.words if since <= day]
        if not said or day >= table.FORAGE_WORD_HOLDS.after(said[-1][0]):
            return None
        return said[-1][1]


def forage_words(entries: Iterable[Entry]) -> ForageWords:
    """Collect the words on forage from a unit's entries, which are sorted by date."""
    said = [(e.on, e.value.forage) for e in entries if isinstance(e.value, YardForage)]
    return ForageWords(tuple(said)) if said else NO_WORDS


NO_WORDS = ForageWords()


@dataclass(frozen=True, slots=True)
class FoodReserve:
    """What a unit has to eat, by date.

    Attributes:
        seen_on: the day on which its stores were seen.
        kilograms: stores at the end of each day from then on.

    """

    seen_on: date
    kilograms: Sequence[float]

    def stores(self, on: date) -> float:
        """Give the kilograms of stores on a date; before they were seen and after the end, those.

        The reckoning ends with the day that was asked for, or sixty days after they were seen.
        """
        day = (on - self.seen_on).days
        return self.kilograms[max(0, min(day, len(self.kilograms) - 1))]

    def under(self, kilograms: float, since: date) -> date | None:
        """Give the first date from ``since`` on with less than so many kilograms."""
        first = max(0, (since - self.seen_on).days)
        for day, left in enumerate(self.kilograms[first:], first):
            if left < kilograms:
                return days_after(self.seen_on, day)
        return None


@dataclass(frozen=True, slots=True)
class FoodSeen:
    """Stores seen on a day, and the kilograms of stores fed since, each with its day."""

    seen_on: date
    seen: float
    fed: tuple[tuple[date, float], ...] = ()


def food_seen(entries: Sequence[Entry]) -> FoodSeen | None:
    """Collect the stores last seen and what was fed since; None where either is not known."""
    fed: list[tuple[date, float | None]] = []
    for entry in reversed(entries):
        news = ENTRY_FACTS[entry.kind].food
        if news is FoodNews.SEEN:
            return _seen(entry, fed[::-1])
        if news is FoodNews.UNKNOWN:
            return None
        if news is FoodNews.GIVEN:
            assert entry.value is None or isinstance(entry.value, Feed)  # noqa: S101 - checked
            fed.append((entry.on, stores_of(entry.value)))
    return None


def food_reserve(
    told: FoodSeen,
    account: Account | None,
    forage: ForageWords,
    kept_in: Iterable[date],
    until: date | None = None,
) -> FoodReserve:
    """Reckon the stores of each day: what was there, and was fed, less what was eaten.

    ``account`` tells how many mouths there are; without one a usual unit is taken. On the days
    in ``kept_in`` cold or wet kept the bees from flying. In a flow they find what they eat, no
    more; without a word, or in a dearth, nothing. ``until`` is the last day that is asked for.
    """
    seen_on = told.seen_on
    days = DAYS if until is None else max(0, min(DAYS, (until - seen_on).days))
    fed = [0.0] * (days + 1)
    for on, amount in told.fed:
        if (day := (on - seen_on).days) <= days:
            fed[day] += amount
    bees, brood = _mouths(account, seen_on, days)
    gone = [0.0, *map(eaten, bees, brood)]
    cold = {(on - seen_on).days for on in kept_in}
    for day in cold.intersection(range(1, days + 1)):
        gone[day] = eaten(bees[day - 1], brood[day - 1], kept_in=True)
    for day in _in_flow(seen_on, forage, days):
        gone[day] = 0.0
    return FoodReserve(seen_on, _left(told.seen, gone, fed))


def _left(seen: float, gone: Sequence[float], fed: Sequence[float]) -> list[float]:
    """Give the stores of each day, of which on the first nothing is eaten."""
    left, stores = [], seen
    for eaten_today, fed_today in zip(gone, fed, strict=True):
        stores = (stores - eaten_today if stores > eaten_today else 0.0) + fed_today
        left.append(stores)
    return left


DAYS = table.ACCOUNT_HOLDS.days
"""Days for which stores are reckoned, from when they were seen."""


def _in_flow(seen: date, forage: ForageWords, days: int) -> list[int]:
    """Give the days of a flow, counted from when the stores were seen."""
    if not forage.words:
        return []
    each = range(days + 1)
    return [day for day in each if forage.on(days_after(seen, day)) is Forage.FLOW]


def _mouths(
    account: Account | None, seen_on: date, days: int
) -> tuple[Sequence[float], Sequence[float]]:
    """Give bees and brood of each day after the stores were seen; a usual unit's if unknown."""
    usual_bees, usual_brood = USUAL_MOUTHS
    if account is None:
        return [usual_bees] * days, [usual_brood] * days
    first, projected = account.day(seen_on) + 1, account.projection
    before, known = min(days, max(0, -first)), slice(max(0, first), max(0, first + days))
    bees, brood = projected.bees[known], projected.brood[known]
    after = days - before - len(bees)
    return (
        [usual_bees] * before + [*bees] + [usual_bees] * after,
        [usual_brood] * before + [*brood] + [usual_brood] * after,
    )


_USUAL = stocked(MakeUp())
USUAL_MOUTHS = project(_USUAL, days=1).bees[1], _USUAL.open_cells + _USUAL.sealed_cells
"""Bees and brood of a unit of which nothing is known: a usual one's after its first night."""


def _seen(entry: Entry, fed: Sequence[tuple[date, float | None]]) -> FoodSeen | None:
    frames = _frames_seen(entry)
    known = [(on, amount) for on, amount in fed if amount is not None]
    if frames is None or len(known) < len(fed):
        return None
    return FoodSeen(entry.on, kilograms(frames), tuple(known))


def _frames_seen(entry: Entry) -> float | None:
    if isinstance(entry.value, Stores):
        return entry.value.deep_frames
    return entry.value.food_frames if isinstance(entry.value, MakeUp) else None
