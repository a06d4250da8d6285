"""A unit's stores, day by day from when they were last seen."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from scheduling.by_day import ByDay, by_day
from scheduling.colony.account import Account
from scheduling.colony.course import Course, walk
from scheduling.colony.forage import ForageWords
from scheduling.colony.stock import stocked
from scheduling.colony.stores import eaten, kilograms, stores_of
from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.quickly_made import quickly_made
from scheduling.trade import table
from scheduling.trade.window import days_after
from scheduling.values import Feed, Forage, MakeUp, Stores


@quickly_made
@dataclass(frozen=True, slots=True)
class Larder:
    """What a unit has to eat, by date.

    Attributes:
        seen_on: the day on which its stores were seen.
        kilograms: stores at the end of each day from then on.

    """

    seen_on: date
    kilograms: ByDay

    def stores(self, on: date) -> float:
        """Give the kilograms of stores on a date; before they were seen and after the end, those.

        The reckoning ends sixty days after the stores were seen.
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


@quickly_made
@dataclass(frozen=True, slots=True)
class Provisions:
    """Stores seen on a day, and the kilograms of stores fed since, each with its day."""

    seen_on: date
    seen: float
    fed: tuple[tuple[date, float], ...] = ()


def provisions(entries: Sequence[Entry]) -> Provisions | None:
    """Collect the stores last seen and what was fed since; None where either is not known."""
    fed: list[tuple[date, float | None]] = []
    for entry in reversed(entries):
        if entry.kind in _SEEN:
            return _seen(entry, fed[::-1])
        if entry.kind in _UNKNOWN_AFTER:
            return None
        if entry.kind is EntryKind.FED:
            assert entry.value is None or isinstance(entry.value, Feed)  # noqa: S101 - checked
            fed.append((entry.on, stores_of(entry.value)))
    return None


@quickly_made
@dataclass(frozen=True, slots=True)
class Pantry:
    """All that decides a unit's stores from when they were seen; days are counted from then.

    Attributes:
        seen: kilograms of stores seen.
        fed: the day and the kilograms of each feed since.
        begun: the day of the bees' account on which the stores were seen.
        in_flow: days of a flow. The bees find what they eat, no more; without a word, or in a
            dearth, nothing.
        kept_in: days on which cold or wet kept the bees from flying.

    """

    seen: float
    fed: tuple[tuple[int, float], ...] = ()
    begun: int = 0
    in_flow: frozenset[int] = frozenset()
    kept_in: frozenset[int] = frozenset()


def pantry_of(
    told: Provisions, account_from: date | None, forage: ForageWords, kept_in: Iterable[date]
) -> Pantry:
    """Count the days from when the stores were seen; ``account_from`` is when the bees' begin."""
    seen_on = told.seen_on
    fed = [((on - seen_on).days, amount) for on, amount in told.fed]
    within = tuple([(day, amount) for day, amount in fed if day <= DAYS])
    begun = (seen_on - account_from).days if account_from is not None else 0
    away = frozenset([(on - seen_on).days for on in kept_in])
    return Pantry(told.seen, within, begun, _in_flow(seen_on, forage), away)


def _in_flow(seen: date, forage: ForageWords) -> frozenset[int]:
    if not forage.words:
        return frozenset()
    days = range(DAYS + 1)
    return frozenset(day for day in days if forage.on(days_after(seen, day)) is Forage.FLOW)


def stored(
    told: Provisions, account: Account | None, forage: ForageWords, kept_in: frozenset[date]
) -> Larder:
    """Reckon the stores of each day: what was there, and was fed, less what was eaten.

    ``account`` tells how many mouths there are; without one a usual unit is taken. On the days
    in ``kept_in`` cold or wet kept the bees from flying.
    """
    account_from = account.made_up_on if account is not None else None
    course = account.course if account is not None else None
    return Larder(told.seen_on, _left(pantry_of(told, account_from, forage, kept_in), course))


DAYS = table.ACCOUNT_HOLDS.days
"""Days for which stores are reckoned, from when they were seen."""


def _left(pantry: Pantry, course: Course | None) -> ByDay:
    """Give the stores of each day, in days from when they were seen."""
    given = [0.0] * (DAYS + 1)
    for day, amount in pantry.fed:
        given[day] += amount
    left = [pantry.seen + given[0]]
    for day in range(1, DAYS + 1):
        kept_in = day in pantry.kept_in
        gone = 0.0 if day in pantry.in_flow else _eaten(course, pantry.begun + day, kept_in)
        left.append(max(0.0, left[-1] - gone) + given[day])
    return by_day(left)


def _eaten(course: Course | None, day: int, kept_in: bool) -> float:
    if course is None or not 0 <= day < len(course.bees):
        return eaten(USUAL_BEES, USUAL_BROOD, kept_in=kept_in)
    return eaten(course.bees[day], course.brood(day), kept_in=kept_in)


_USUAL = stocked(None)
USUAL_BEES = walk(_USUAL, days=1).bees[1]
USUAL_BROOD = _USUAL.open_cells + _USUAL.sealed_cells
"""Mouths in a unit of which nothing is known: those of a usual one after its first night."""


_SEEN = frozenset({EntryKind.STORES, EntryKind.MADE_UP})
_UNKNOWN_AFTER = frozenset({EntryKind.ROBBED, EntryKind.ABSCONDED, EntryKind.DEAD})


def _seen(entry: Entry, fed: Sequence[tuple[date, float | None]]) -> Provisions | None:
    frames = _frames_seen(entry)
    known = [(on, amount) for on, amount in fed if amount is not None]
    if frames is None or len(known) < len(fed):
        return None
    return Provisions(entry.on, kilograms(frames), tuple(known))


def _frames_seen(entry: Entry) -> float | None:
    if isinstance(entry.value, Stores):
        return entry.value.deep_frames
    return entry.value.food_frames if isinstance(entry.value, MakeUp) else None
