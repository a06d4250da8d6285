"""When a unit's food is looked at or topped up."""

from datetime import date

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check, Why, due
from scheduling.checks.colonies import Colony, colony_of
from scheduling.checks.queen_dates import QueenDates
from scheduling.colony.food_reserve import FoodReserve, ForageWords
from scheduling.colony.stores import (
    LEAST_KILOGRAMS,
    MOST_KILOGRAMS,
    dose_for,
    stores_of_usual_syrup,
)
from scheduling.trade import table
from scheduling.trade.constant import Constant, Window, days_after
from scheduling.units.state import UnitState
from scheduling.values import Forage


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
