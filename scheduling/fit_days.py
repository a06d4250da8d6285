"""Checks moved from days that are too cold, windy or wet for opening to the next fit day."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date

from scheduling.checks.around_rests import UNDER_THE_LID
from scheduling.checks.check import Check, last_useful
from scheduling.trade import table
from scheduling.trade.window import days_after
from scheduling.visits import DayPlan, Due, Waiting
from scheduling.weather.opening import Unfit
from scheduling.weather.yard_weather import YardWeather


def moved_to_fit_days(plan: DayPlan, weather: Mapping[str, YardWeather]) -> DayPlan:
    """Give the plan with those checks set apart that wait for a day fit for opening.

    Nothing is lost by it: what waits stands under ``waiting`` and is due again on its day.
    """
    due: list[Due] = []
    waiting: list[Waiting] = []
    unfit = {yard: at for yard, at in weather.items() if unfit_on(plan.day, at) is not None}
    for item in plan.due:
        at_yard = unfit.get(item.check.place.yard)
        waits = None if at_yard is None else _waiting(item.check, plan.day, at_yard)
        if waits is None:
            due.append(item)
        else:
            waiting.append(waits)
    return replace(plan, due=tuple(due), waiting=tuple(waiting))


def fit_day(check: Check, day: date, weather: YardWeather) -> date:
    """Give the day on which to do a check that is due on ``day``: that day, or the next fit one.

    A day of unknown weather counts as fit. What is done under the lid does not wait. Nor does
    a check for which no fit day comes in time: while it is of use, and before the forecast
    tells little.
    """
    last = _last_day(check, day)
    if check.why.cause in UNDER_THE_LID:
        return day
    candidate = day
    while candidate <= last:
        if unfit_on(candidate, weather) is None:
            return candidate
        candidate = days_after(candidate, 1)
    return day


def unfit_on(day: date, weather: YardWeather) -> Unfit | None:
    """Tell what forbids opening on a date; None where it is fit or not known."""
    known = weather.days.get(day)
    return known.unfit if known is not None else None


def unfit_days(weather: Mapping[str, YardWeather]) -> dict[str, frozenset[date]]:
    """Give the dates on which the colonies of each yard cannot be opened."""
    return {
        yard: frozenset(day for day in known.days if unfit_on(day, known) is not None)
        for yard, known in weather.items()
    }


def _waiting(check: Check, day: date, weather: YardWeather) -> Waiting | None:
    until, unfit = fit_day(check, day, weather), unfit_on(day, weather)
    return None if until == day or unfit is None else Waiting(check, until, unfit)


def _last_day(check: Check, day: date) -> date:
    longest = table.LONGEST_WAIT.after(day)
    useful = last_useful(check)
    return longest if useful is None else min(longest, useful)
