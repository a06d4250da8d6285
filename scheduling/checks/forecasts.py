"""Forecasts: what may be expected of the queens that are waited for, by the walk."""

from array import array
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date
from functools import cache, lru_cache

from scheduling.checks.flying_weather import FlyingWeather
from scheduling.entries import Entry
from scheduling.entry_facts import ENTRY_FACTS
from scheduling.entry_kinds import EntryKind, QueenNews
from scheduling.trade.constant import Window, days_after
from scheduling.units.state import Stage, UnitState
from scheduling.walk.case import DAYS, Case, Sight
from scheduling.walk.model import walk
from scheduling.walk.odds import NO_SHIFT, LookDays, Odds, Shift, look_days, shift_by
from scheduling.walk.stages import EMERGENCE, OWN_EMERGENCE, Spread, certain

NOTHING_LEFT = 1e-6
"""What is left of a chance that has been rounded away."""


@dataclass(frozen=True, slots=True)
class QueenForecast:
    """The chances of a queen who has not been seen to lay, given all that was seen.

    Before the last look a day's chances are those that were known then.

    Attributes:
        first: the date of the first of the chances.
        emerged: chance that she is out of her cell, whatever became of her since.
        virgin: chance that she is out, there, and not mated.
        eggs: chance of eggs to be seen.
        failed: chance of a dud cell, of a queen lost, or of one too old to mate well.
        look: when to look for eggs, going by the weather.
        fair_look: when it would be if every day had flying weather.
        give_up: the date on which she is given up if there are no eggs by then.
        grounded: dates on which she could not fly, oldest first.
        weather_known: whether anything is known of the weather of her time.
        shift: by how many days the crew's own odds move what is published.

    """

    first: date
    emerged: Sequence[float] = field(repr=False)
    virgin: Sequence[float] = field(repr=False)
    eggs: Sequence[float] = field(repr=False)
    failed: Sequence[float] = field(repr=False)
    look: Window
    fair_look: Window
    give_up: date
    grounded: tuple[date, ...] = ()
    weather_known: bool = False
    shift: Shift = NO_SHIFT

    @property
    def still_lays(self) -> float:
        """Chance that she will ever lay, or does so already."""
        return self.eggs[-1]

    def eggs_by(self, day: date) -> float:
        """Give the chance that eggs can be seen on ``day`` if she has not failed."""
        number = self._number(day)
        alive = 1 - self.failed[number]
        return self.eggs[number] / alive if alive > NOTHING_LEFT else 0.0

    def emerged_by(self, day: date) -> float:
        """Give the chance that on ``day`` she is out of her cell."""
        return self.emerged[self._number(day)]

    def days_without_flying(self, day: date) -> int:
        """Count the days before ``day`` on which she was old enough to fly and could not."""
        return sum(1 for grounded in self.grounded if grounded < day)

    def _number(self, day: date) -> int:
        return min(max((day - self.first).days, 0), len(self.eggs) - 1)


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


_Series = tuple[Sequence[float], Sequence[float], Sequence[float], Sequence[float]]
"""Emerged, virgin, eggs and failed; 4 bytes a number, since a crew has many days and units."""


@dataclass(frozen=True, slots=True)
class _Walk:
    """What came of one case: its days, and its chances day by day."""

    days: LookDays
    series: _Series


def forecast_of(state: UnitState, weather: FlyingWeather, odds: Odds) -> QueenForecast | None:
    """Give what may be expected of a unit's queen, None where none is waited for.

    There is none either where what was seen cannot be, as of a cell said to be open and then
    said to be sealed.
    """
    queen = queen_of(state, weather)
    if queen is None:
        return None
    walked, fair = _walked(queen.case, odds), _walked(queen.fair, odds)
    if walked is None or fair is None:
        return None
    return QueenForecast(
        queen.first,
        *walked.series,
        look=_window(queen.first, walked.days),
        fair_look=_window(queen.first, fair.days),
        give_up=days_after(queen.first, walked.days.give_up),
        grounded=queen.grounded,
        weather_known=queen.weather_known,
        shift=shift_by(odds),
    )


# A queen of whom nothing was seen since is walked again with whatever was told of her unit, and
# in fair weather many walk alike.
@lru_cache(maxsize=256)
def _walked(case: Case, odds: Odds) -> _Walk | None:
    walked = walk(case)
    if not walked.possible:
        return None
    rows = (walked.emerged, walked.virgin, walked.eggs, walked.failed)
    emerged, virgin, eggs, failed = (array("f", row) for row in rows)
    return _Walk(look_days(walked, case, odds), (emerged, virgin, eggs, failed))


def _window(first: date, found: LookDays) -> Window:
    not_before, best = days_after(first, found.not_before), days_after(first, found.best)
    return Window(not_before, best, days_after(first, found.latest))
