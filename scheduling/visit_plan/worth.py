"""What a day is worth to a check: for a look at a young queen, the chance that it pays."""

from collections.abc import Callable
from datetime import date

from scheduling.check_kinds import CheckKind
from scheduling.checks.calendar import Calendar
from scheduling.checks.check import Check
from scheduling.trade.window import days_after
from scheduling.visit_plan.closeness import BEST_PER_MILLE, closeness
from scheduling.visit_plan.errands import Worth
from scheduling.walk.forecast import QueenForecast

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
