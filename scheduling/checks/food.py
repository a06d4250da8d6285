"""When a unit's food is looked at or topped up."""

from datetime import date

from scheduling.checks.check import Cause, Check, CheckKind, Why
from scheduling.checks.due import due
from scheduling.trade import table
from scheduling.trade.constant import Constant
from scheduling.units.state import UnitState


def food(state: UnitState) -> tuple[Check, ...]:
    """Look at the food a week after it was last seen or given, sooner where it was low."""
    since = food_known_on(state)
    if since is None:
        return ()
    if state.robbed_on is not None and state.robbed_on > since:
        return (_look(state, table.ROBBED_LOOK, state.robbed_on, Cause.ROBBED),)
    if not _seen_last(state) or state.food_deep_frames is None:
        return (_look(state, table.FEED_LOOK, since, Cause.FOOD_LOOK),)
    if state.food_deep_frames < table.LEAST_STORES.value:
        return (_look(state, table.FEED_WHEN_LOW, since, Cause.FOOD_LOW),)
    if state.food_deep_frames >= table.WELL_STORED.value:
        return (_look(state, table.FEED_LOOK_WELL_STORED, since, Cause.FOOD_LOOK),)
    return (_look(state, table.FEED_LOOK, since, Cause.FOOD_LOOK),)


def food_known_on(state: UnitState) -> date | None:
    """Give the last day its food was seen, given or stocked; else the day its round began."""
    known = (state.food_seen_on, state.fed_on, state.made_up_on)
    begun = state.started_on or state.looked_on
    return max((day for day in known if day is not None), default=begun)


def _seen_last(state: UnitState) -> bool:
    """Tell whether food was seen after it was last given or stocked."""
    seen, fed, stocked = state.food_seen_on, state.fed_on, state.made_up_on
    if seen is None or (fed is not None and fed >= seen):
        return False
    return stocked is None or stocked <= seen


def _look(state: UnitState, timing: Constant, since: date, cause: Cause) -> Check:
    window = timing.window(since)
    return due(state, CheckKind.FEED, window, Why(cause, seen=since, days=timing.days))
