"""Beetle traps emptied less often while it is too cool for beetles to breed fast."""

from collections.abc import Mapping, Sequence
from datetime import date

from scheduling.checks.around_rests import around_rests
from scheduling.checks.check import Cause, Check, in_order
from scheduling.trade import table
from scheduling.trade.window import days_after
from scheduling.weather.day import DayOfWeather


def traps_by_warmth(
    checks: Sequence[Check], days: Mapping[date, DayOfWeather], looked_on: date | None
) -> tuple[Check, ...]:
    """Give a unit's checks with the services of its trap put back where it has been cool.

    ``days`` is the weather of its yard by local date; ``looked_on`` the day it was last opened.
    """
    each = [(check, _put_back(check, days)) for check in checks]
    put_back = [after for before, after in each if after is not before]
    if not put_back:
        return tuple(checks)
    others = [after for before, after in each if after is before]
    return in_order((*others, *around_rests(put_back, others, looked_on)))


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


def _put_back(check: Check, days: Mapping[date, DayOfWeather]) -> Check:
    serviced = check.why.seen
    if check.why.cause is not Cause.TRAP_FULL or serviced is None or check.best is None:
        return check
    day = service_day(serviced, days)
    if day <= check.best:
        return check
    later = (day - check.best).days
    by = days_after(check.by, later) if check.by is not None else None
    why = check.why._replace(days=(day - serviced).days)
    return check._replace(best=day, by=by, why=why)
