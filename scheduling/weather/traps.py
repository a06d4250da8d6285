"""Beetle traps emptied less often while it is too cool for beetles to breed fast."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date

from scheduling.checks.around_rests import around_rests
from scheduling.checks.calendar import Calendar
from scheduling.checks.check import Cause, Check
from scheduling.checks.in_order import in_order
from scheduling.places import Place
from scheduling.trade import table
from scheduling.trade.window import days_after
from scheduling.weather.day import DayOfWeather
from scheduling.weather.yard_weather import YardWeather


def traps_by_warmth(calendar: Calendar, weather: Mapping[str, YardWeather]) -> Calendar:
    """Give the calendar with the services of traps put back where it has been cool."""
    checks = {
        place: _moved(calendar, place, weather[place.yard].days)
        if place.yard in weather and place in calendar.units
        else found
        for place, found in calendar.checks.items()
    }
    return replace(calendar, checks=checks)


def service_day(serviced: date, days: Mapping[date, DayOfWeather]) -> date:
    """Give the day on which a trap serviced on a date is due again.

    After a week where any day since was warm or is not known; else on the first warm day, after
    two weeks at the latest; later still where it is too cold for eggs to hatch.
    """
    day = table.TRAP_SERVICE.after(serviced)
    latest = table.TRAP_SERVICE_COLD.after(serviced)
    while day < latest and not _due(serviced, day, days):
        day = days_after(day, 1)
    return day


def _due(serviced: date, day: date, days: Mapping[date, DayOfWeather]) -> bool:
    since = [days.get(days_after(serviced, n + 1)) for n in range((day - serviced).days)]
    warmest = [known.warmest_c if known is not None else None for known in since]
    if any(warm is None or warm >= table.BEETLE_WARM.value for warm in warmest):
        return True
    means = [known.mean_c for known in since if known is not None and known.mean_c is not None]
    hatching = sum(means) / len(means) >= table.BEETLE_EGGS_HATCH.value
    return hatching and day >= table.TRAP_SERVICE_COOL.after(serviced)


def _moved(
    calendar: Calendar, place: Place, days: Mapping[date, DayOfWeather]
) -> tuple[Check, ...]:
    checks = calendar.checks[place]
    each = [(check, _put_back(check, days)) for check in checks]
    others = [after for before, after in each if after is before]
    put_back = [after for before, after in each if after is not before]
    moved = around_rests(put_back, others, calendar.units[place].looked_on)
    return in_order((*others, *moved))


def _put_back(check: Check, days: Mapping[date, DayOfWeather]) -> Check:
    serviced = check.why.seen
    if check.why.cause is not Cause.TRAP_FULL or serviced is None or check.best is None:
        return check
    day = service_day(serviced, days)
    if day <= check.best:
        return check
    later = (day - check.best).days
    by = days_after(check.by, later) if check.by is not None else None
    why = replace(check.why, days=(day - serviced).days)
    return replace(check, best=day, by=by, why=why)
