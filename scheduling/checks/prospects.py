"""Walking the queens of a crew's units, to know what may be expected of each."""

from array import array
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import lru_cache

from scheduling.checks.queens import Queen, queen_of
from scheduling.checks.sky import Sky
from scheduling.trade.window import Window, days_after
from scheduling.units.state import UnitState
from scheduling.walk.case import Case
from scheduling.walk.looks import LookDays, look_days, shift_by
from scheduling.walk.model import walk
from scheduling.walk.odds import Odds
from scheduling.walk.outlook import Outlook
from scheduling.weather.yard_weather import YardWeather

_Series = tuple[Sequence[float], Sequence[float], Sequence[float], Sequence[float]]
"""Emerged, virgin, eggs and failed; 4 bytes a number, since a crew has many days and units."""


@dataclass(frozen=True, slots=True)
class _Walk:
    """What came of one case: its days, and its chances day by day."""

    days: LookDays
    series: _Series


def outlooks(
    states: Iterable[UnitState], weather: Mapping[str, YardWeather], odds: Odds
) -> list[Outlook | None]:
    """Give the outlook of each unit, None where no queen is waited for.

    There is none either where what was seen cannot be, as of a cell said to be open and then
    said to be sealed.
    """
    sky = Sky(weather)
    queens = [queen_of(state, sky) for state in states]
    return [_outlook(queen, odds) if queen is not None else None for queen in queens]


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


def _outlook(queen: Queen, odds: Odds) -> Outlook | None:
    walked, fair = _walked(queen.case, odds), _walked(queen.fair, odds)
    if walked is None or fair is None:
        return None
    return Outlook(
        queen.first,
        *walked.series,
        look=_window(queen.first, walked.days),
        fair_look=_window(queen.first, fair.days),
        give_up=days_after(queen.first, walked.days.give_up),
        grounded=queen.grounded,
        weather_known=queen.weather_known,
        shift=shift_by(odds),
    )


def _window(first: date, found: LookDays) -> Window:
    not_before, best = days_after(first, found.not_before), days_after(first, found.best)
    return Window(not_before, best, days_after(first, found.latest))
