"""Walking the queens of a crew's units, to know what may be expected of each."""

from array import array
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import TYPE_CHECKING

from scheduling.alike import Alike
from scheduling.checks.queens import Queen, queen_of
from scheduling.checks.sky import Sky
from scheduling.quickly_made import quickly_made
from scheduling.trade.window import Window, days_after
from scheduling.units.state import UnitState
from scheduling.walk.alone import walk_alone
from scheduling.walk.case import Case
from scheduling.walk.days import Days
from scheduling.walk.days_alone import days_alone, shift_by
from scheduling.walk.odds import Odds
from scheduling.walk.outlook import Outlook
from scheduling.walk.shift import Shift
from scheduling.weather.yard_weather import YardWeather

if TYPE_CHECKING:
    from scheduling.walk.series import Series

FEW = 16
"""Up to so many queens are walked one by one: for those loading and filling arrays costs more."""


@quickly_made
@dataclass(frozen=True, slots=True)
class _Walk:
    """What came of one case: its days, and its chances day by day."""

    days: Days
    series: "Series"


def outlooks(
    states: Iterable[UnitState], weather: Mapping[str, YardWeather], odds: Odds
) -> list[Outlook | None]:
    """Give the outlook of each unit, None where no queen is waited for.

    There is none either where what was seen cannot be, as of a cell said to be open and then
    said to be sealed.
    """
    sky = Sky(weather)
    queens = [queen_of(state, sky) for state in states]
    alike = Alike(
        case for queen in queens if queen is not None for case in (queen.case, queen.fair)
    )
    walks, shift = _walks(alike.kinds, odds), shift_by(odds)
    walked = iter([walks[kind] for kind in alike.kind_of_each])
    return [
        _outlook(queen, next(walked), next(walked), shift) if queen is not None else None
        for queen in queens
    ]


def _walks(cases: list[Case], odds: Odds) -> list[_Walk | None]:
    """Walk each case once, however many units share it; None for what cannot be."""
    if len(cases) > FEW:
        return _many_walks(cases, odds)
    return [_lone_walk(case, odds) for case in cases]


# A queen of whom nothing was seen since is walked again with whatever was told of her unit, and
# in fair weather many walk alike.
@lru_cache(maxsize=256)
def _lone_walk(case: Case, odds: Odds) -> _Walk | None:
    walked = walk_alone(case)
    if not walked.possible:
        return None
    rows = (walked.emerged, walked.virgin, walked.eggs, walked.failed)
    emerged, virgin, eggs, failed = (array("f", row) for row in rows)
    return _Walk(days_alone(walked, case, odds), (emerged, virgin, eggs, failed))


def _many_walks(cases: list[Case], odds: Odds) -> list[_Walk | None]:
    # Only here are arrays needed, and loading them takes longer than a few walks.
    from scheduling.walk.dates import days
    from scheduling.walk.series import series_of
    from scheduling.walk.walk import walk

    walked = walk(cases)
    found = zip(days(walked, cases, odds), series_of(walked), walked.possible, strict=True)
    return [_Walk(its, series) if possible else None for its, series, possible in found]


def _outlook(
    queen: Queen, walked: _Walk | None, fair: _Walk | None, shift: Shift
) -> Outlook | None:
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
        shift=shift,
    )


def _window(first: date, found: Days) -> Window:
    not_before, best = days_after(first, found.not_before), days_after(first, found.best)
    return Window(not_before, best, days_after(first, found.latest))
