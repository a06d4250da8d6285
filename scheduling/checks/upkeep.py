"""Upkeep: when a unit is fed, or its food looked at, and its beetle trap set and emptied."""

from collections.abc import Mapping, Sequence
from datetime import date

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check, Why, due, in_order
from scheduling.checks.colonies import Colony, colony_of
from scheduling.checks.queen_dates import QueenDates
from scheduling.checks.rests import around_rests
from scheduling.colony.food_reserve import FoodReserve, ForageWords
from scheduling.colony.stores import (
    LEAST_KILOGRAMS,
    MOST_KILOGRAMS,
    dose_for,
    stores_of_usual_syrup,
)
from scheduling.entry_kinds import EntryKind
from scheduling.trade import table
from scheduling.trade.constant import Constant, Window, days_after
from scheduling.units.state import UnitState
from scheduling.values import Forage, TrapCount
from scheduling.weather.day import DayOfWeather


def food(state: UnitState, colony: Colony, feeder_litres: float) -> tuple[Check, ...]:
    """Feed before the stores fall too low, or look at the food where that cannot be reckoned.

    Doses are counted in feeders that hold ``feeder_litres``.
    """
    since = food_known_on(state)
    if since is None:
        return ()
    if state.robbed_on is not None and state.robbed_on > since:
        return (_look(state, table.ROBBED_LOOK, state.robbed_on, Cause.ROBBED),)
    reserve = colony.food_until(table.FEED_LOOK_WELL_STORED.after(since))
    if reserve is None:
        return (_look(state, table.FEED_LOOK, since, Cause.FOOD_LOOK),)
    return (_reckoned(state, reserve, colony.forage, since, feeder_litres),)


def _reckoned(
    state: UnitState, reserve: FoodReserve, forage: ForageWords, since: date, feeder_litres: float
) -> Check:
    """Feed the day before the stores fall under the least, or at once where they are there.

    However much there is, it is looked at after two weeks: the account is only an account, and
    the reserve is not reckoned any further.
    """
    low = reserve.under(LEAST_KILOGRAMS, since)
    if low is None:
        return _look(state, table.FEED_LOOK_WELL_STORED, since, Cause.FOOD_LOOK)
    window = table.FEED_WHEN_LOW.window(since)
    if low > since:
        best = max(window.best, days_after(low, -1))
        window = Window(min(best, _room_from(reserve, window.not_before)), best, max(best, low))
    cause = Cause.FOOD_RUNS_LOW if low > since else Cause.FOOD_LOW
    dearth = forage.on(window.best) is Forage.DEARTH
    dose = dose_for(reserve.stores(window.best), feeder_litres)
    runs_low = Why(cause, seen=since, about=low, dose=dose, dearth=dearth)
    return due(state, CheckKind.FEED, window, runs_low)


def _room_from(reserve: FoodReserve, earliest: date) -> date:
    """Give the first day on which a jar of syrup would not overfill the unit."""
    room = reserve.under(_ROOM_FOR_A_JAR, earliest)
    return max(earliest, room) if room is not None else earliest


_ROOM_FOR_A_JAR = MOST_KILOGRAMS - stores_of_usual_syrup(table.FEEDER.value)


def food_known_on(state: UnitState) -> date | None:
    """Give the last day its food was seen, given or stocked; else the day its round began."""
    told = (state.food_seen_on, state.fed_on, state.made_up_on)
    known = [day for day in told if day is not None]
    return max(known) if known else state.started_on or state.looked_on


def overfed(queen: QueenDates, day: date) -> bool:
    """Tell whether, by its account, the unit has more than it may be filled with on a day."""
    reserve = colony_of(queen).food_until(day)
    return reserve is not None and reserve.stores(day) > MOST_KILOGRAMS + _A_SPOONFUL


_A_SPOONFUL = 0.01
"""Kilograms that nobody could tell."""


def _look(state: UnitState, timing: Constant, since: date, cause: Cause) -> Check:
    window = timing.window(since)
    return due(state, CheckKind.FEED, window, Why(cause, since, None, timing.days))


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
