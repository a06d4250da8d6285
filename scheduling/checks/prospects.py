"""Walking the queens of a crew's units, to know what may be expected of each."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from scheduling.checks.queens import Queen, queen_of
from scheduling.checks.sky import Sky
from scheduling.trade.window import Window, days_after
from scheduling.units.state import UnitState
from scheduling.walk.case import Case
from scheduling.walk.dates import Days, days, shift_by
from scheduling.walk.odds import Odds
from scheduling.walk.outlook import Outlook
from scheduling.walk.series import Series, series_of
from scheduling.walk.shift import Shift
from scheduling.walk.walk import walk
from scheduling.weather.yard_weather import YardWeather


@dataclass(frozen=True)
class _Walk:
    """What came of one case: its days, and its chances day by day."""

    days: Days
    series: Series


def outlooks(
    states: Iterable[UnitState], weather: Mapping[str, YardWeather], odds: Odds
) -> list[Outlook | None]:
    """Give the outlook of each unit, None where no queen is waited for.

    There is none either where what was seen cannot be, as of a cell said to be open and then
    said to be sealed.
    """
    sky = Sky(weather)
    queens = [queen_of(state, sky) for state in states]
    cases = {case for queen in queens if queen is not None for case in (queen.case, queen.fair)}
    walks, shift = _walks(list(cases), odds), shift_by(odds)
    return [_outlook(queen, walks, shift) if queen is not None else None for queen in queens]


def _walks(cases: list[Case], odds: Odds) -> dict[Case, _Walk]:
    """Walk each case once, however many units share it; drop what cannot be."""
    walked = walk(cases)
    found = zip(cases, days(walked, cases, odds), series_of(walked), walked.possible, strict=True)
    return {case: _Walk(its, series) for case, its, series, possible in found if possible}


def _outlook(queen: Queen, walks: Mapping[Case, _Walk], shift: Shift) -> Outlook | None:
    walked, fair = walks.get(queen.case), walks.get(queen.fair)
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
    return Window(*(days_after(first, n) for n in (found.not_before, found.best, found.latest)))
