"""When a unit's beetle trap is set and emptied: sooner as beetles come, less often in the cool."""

from collections.abc import Mapping, Sequence
from datetime import date

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check, Why, due, in_order
from scheduling.checks.rests import around_rests
from scheduling.entry_kinds import EntryKind
from scheduling.trade import table
from scheduling.trade.constant import Constant, days_after
from scheduling.units.state import UnitState
from scheduling.values import TrapCount
from scheduling.weather.day import DayOfWeather


def beetles(state: UnitState) -> tuple[Check, ...]:
    """Set the trap on the day of make-up, and empty it every week, sooner as beetles come.

    A unit of which neither make-up nor trap was ever told has none due: not every keeper lives
    where there are beetles.
    """
    if state.trap_on is not None:
        timing, cause = _service(state)
        counted = None if cause is Cause.TRAP_FULL else state.beetles
        days = timing.days if cause is Cause.TRAP_FULL else None
        why = Why(cause, seen=state.trap_on, days=days, beetles=counted)
        return (due(state, CheckKind.TRAP, timing.window(state.trap_on), why),)
    if state.made_up_on is not None:
        why = Why(Cause.TRAP_FULL, about=state.made_up_on)
        return (due(state, CheckKind.TRAP, table.TRAP_IN.window(state.made_up_on), why),)
    return ()


def _service(state: UnitState) -> tuple[Constant, Cause]:
    if (state.beetles or 0) >= table.MANY_BEETLES.value:
        return table.TRAP_SERVICE_MANY, Cause.MANY_BEETLES
    if _risen(state):
        return table.TRAP_SERVICE_RISING, Cause.BEETLES_RISE
    return table.TRAP_SERVICE, Cause.TRAP_FULL


def _risen(state: UnitState) -> bool:
    """Tell whether the last service counted clearly more beetles than the one before."""
    if not state.beetles:
        return False
    told = [entry.value for entry in state.entries if entry.kind is EntryKind.TRAP_SERVICED]
    counts = [value.beetles for value in told[-2:] if isinstance(value, TrapCount)]
    return len(counts) == 2 and counts[1] - counts[0] >= table.BEETLES_RISE.value


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
