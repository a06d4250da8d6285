"""Forecasts: what may be expected of the queens that are waited for, by the walk."""

from array import array
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import lru_cache

from scheduling.checks.flying_weather import FlyingWeather
from scheduling.checks.queen_seen import queen_of
from scheduling.trade.window import Window, days_after
from scheduling.units.state import UnitState
from scheduling.walk.case import Case
from scheduling.walk.forecast import QueenForecast
from scheduling.walk.look_dates import LookDays, look_days, shift_by
from scheduling.walk.model import walk
from scheduling.walk.odds import Odds

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
