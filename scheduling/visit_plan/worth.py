"""What a day is worth to a check: by its window, or the chance that a look at a queen pays."""

from collections.abc import Callable
from datetime import date

from scheduling.check_kinds import CheckKind
from scheduling.checks.calendar import Calendar
from scheduling.checks.check import Check
from scheduling.checks.forecasts import QueenForecast
from scheduling.trade.constant import days_after

BEST_PER_MILLE, EDGE_PER_MILLE = 1000, 500
"""Worth of the best date, and of the first and last date of a window: our own choice.

The edge is worth half the best date, so that two checks a little off their best dates are as good
as one on its best date and one at its edge.
"""


def closeness(check: Check, day: date) -> int:
    """Give the worth in thousandths: falling evenly from the best date to the window's ends.

    A check that stays open keeps its full worth from its best date on; late work is as urgent on
    the day it is asked for as work on its best date.
    """
    if check.best is None or day == check.best:
        return BEST_PER_MILLE
    end = check.not_before if day < check.best else check.by
    if end is None or (day > check.best and day > end):
        return BEST_PER_MILLE
    lost = BEST_PER_MILLE - EDGE_PER_MILLE
    return BEST_PER_MILLE - lost * abs((day - check.best).days) // abs((end - check.best).days)


Worth = Callable[[Check, date], int]
"""What a date is worth to a check, in thousandths; with one peak over the check's window."""

Chance = Callable[[QueenForecast, date], float]

PAYS: dict[CheckKind, Chance] = {
    CheckKind.LAYING: QueenForecast.eggs_by,
    CheckKind.EMERGENCE: QueenForecast.emerged_by,
}
"""The chance that what is looked for is there to be seen."""


def chances_of(calendar: Calendar) -> Worth:
    """Give the worth by the walk's chances for eggs and emergence, by the window for the rest.

    A look is worth the chance that it pays, against the chance on its best date. After that date
    the chance only grows, yet whoever waits for it loses days: from there on the worth falls as
    it does for any check, and so it has one peak.
    """

    def worth(check: Check, day: date) -> int:
        forecast, pays = calendar.forecasts.get(check.place), PAYS.get(check.kind)
        if forecast is None or pays is None or check.best is None or day >= check.best:
            return closeness(check, day)
        best = pays(forecast, check.best)
        return round(BEST_PER_MILLE * _so_far(forecast, pays, check, day) / best) if best else 0

    return worth


def _so_far(forecast: QueenForecast, pays: Chance, check: Check, day: date) -> float:
    """Give the highest chance up to a day, which no later one is below: a look may lower it."""
    assert check.best is not None  # noqa: S101 - asked only of dated checks
    ahead = range((day - check.not_before).days + 1)
    highest = max(pays(forecast, days_after(check.not_before, n)) for n in ahead)
    return min(highest, pays(forecast, check.best))
