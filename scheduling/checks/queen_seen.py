"""A unit's queen as the walk is told of her: what was seen, in what weather, in days."""

from dataclasses import dataclass
from datetime import date
from functools import cache

from scheduling.checks.flying_weather import FlyingWeather
from scheduling.entries import Entry
from scheduling.entry_facts import ENTRY_FACTS
from scheduling.entry_kinds import EntryKind, QueenNews
from scheduling.trade.window import days_after
from scheduling.units.state import Stage, UnitState
from scheduling.walk.case import DAYS, Case, Sight
from scheduling.walk.spread import Spread, certain
from scheduling.walk.stages import EMERGENCE, OWN_EMERGENCE

WAITED_FOR = frozenset({Stage.CELL, Stage.RAISING_OWN, Stage.VIRGIN})
"""Stages of a queen that is not mated, as far as anybody knows."""

_ANOTHER_QUEEN = frozenset(
    {QueenNews.ANOTHER, QueenNews.CELL_LOST, QueenNews.LOST, QueenNews.UNIT_ENDED}
)
"""What was told up to one of these was told of an earlier queen, or of none."""

SIGHTS = {
    QueenNews.SEALED: Sight.SEALED,
    QueenNews.OUT: Sight.OUT,
    QueenNews.VIRGIN: Sight.VIRGIN,
    QueenNews.SEEN: Sight.QUEEN,
    QueenNews.NOT_SEEN: Sight.NO_QUEEN,
    QueenNews.NO_EGGS: Sight.NO_EGGS,
}
"""What an entry tells of a queen that is waited for; others end the wait."""


def _from_day_0(emergence: Spread) -> tuple[int, Spread]:
    """Give how many days from her due day she may emerge, and the spread counted from then."""
    return emergence.first, emergence.moved(-emergence.first)


_KNOWN = _from_day_0(certain(0))
_SPREADS: dict[EntryKind | None, tuple[int, Spread]] = {
    EntryKind.CELL_PLACED: _from_day_0(EMERGENCE),
    EntryKind.RAISING_OWN: _from_day_0(OWN_EMERGENCE),
}


@dataclass(frozen=True, slots=True)
class Queen:
    """One queen to be walked.

    Attributes:
        first: the date of day 0.
        case: what the walk is told of her.
        fair: the same, if every day had flying weather.
        grounded: dates on which she was old enough to fly, and could not.
        weather_known: whether anything is known of the weather on the days when she may mate.

    """

    first: date
    case: Case
    fair: Case
    grounded: tuple[date, ...]
    weather_known: bool


def is_waited_for(state: UnitState) -> bool:
    """Tell whether a queen of known age is waited for who has yet to mate."""
    known = state.emergence_due is not None and not state.mated_when_placed
    return known and state.stage in WAITED_FOR


def queen_of(state: UnitState, weather: FlyingWeather) -> Queen | None:
    """Give the unit's queen, None where none is waited for."""
    due = state.emergence_due
    if due is None or not is_waited_for(state):
        return None
    earliest, spread = _SPREADS.get(state.started_by, _KNOWN)
    first = days_after(due, earliest)
    seen = _seen(state, first)
    from_cell = state.started_by is EntryKind.CELL_PLACED
    kept_in = _days_kept_in(state, first)
    span = weather.span(state.place.yard, first, kept_in)
    case = Case(spread, from_cell, span.flying, seen)
    fair = Case(spread, from_cell, _fair(kept_in), seen)
    return Queen(first, case, fair, span.grounded, span.known)


@cache
def _fair(kept_in: int) -> tuple[float, ...]:
    return (0.0,) * kept_in + (1.0,) * (DAYS - kept_in)


def _days_kept_in(state: UnitState, first: date) -> int:
    """Count the days on which a virgin could not fly because she was not in the unit yet."""
    if state.started_by is not EntryKind.VIRGIN_PLACED or state.started_on is None:
        return 0
    return min(max((state.started_on - first).days, 0), DAYS)


def _seen(state: UnitState, first: date) -> tuple[tuple[int, Sight], ...]:
    """Give what was seen of this queen; before she may be out there is nothing to see."""
    seen = [
        (min((entry.on - first).days, DAYS - 1), sight)
        for entry, sight in _sights_of_this_queen(state.entries)
        if entry.on >= first
    ]
    return tuple(seen[::-1])


def _sights_of_this_queen(entries: tuple[Entry, ...]) -> list[tuple[Entry, Sight]]:
    """Give what was seen since she was placed or the last one was lost, the latest first."""
    seen = []
    for entry in reversed(entries):
        news = ENTRY_FACTS[entry.kind].queen
        if news is None:
            continue
        if news in _ANOTHER_QUEEN:
            break
        sight = SIGHTS.get(news)
        if sight is not None:
            seen.append((entry, sight))
    return seen
