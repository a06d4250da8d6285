"""The look for her first eggs."""

from datetime import date

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check, Why
from scheduling.checks.due import due
from scheduling.checks.flying import Delayed, delayed, too_late_to_mate_well, weather_known
from scheduling.checks.release import release_day
from scheduling.checks.remembered import remembered
from scheduling.entry_kinds import EntryKind
from scheduling.trade import table
from scheduling.trade.window import Window
from scheduling.units.state import Stage, UnitState

BEFORE_LAYING = frozenset({Stage.CELL, Stage.CAGED, Stage.RAISING_OWN, Stage.VIRGIN})
"""Stages of a queen that has not been seen to lay."""


def laying(state: UnitState) -> tuple[Check, ...]:
    """Look for eggs when they can be expected, and again when there were none."""
    look = laying_look(state)
    if look is None or given_up_next(state):
        return ()
    follows = CheckKind.RELEASE if state.stage is Stage.CAGED else None
    return (due(state, CheckKind.LAYING, look.window, _why(state, look), follows),)


@remembered
def laying_look(state: UnitState) -> Delayed | None:
    """Give the next look for eggs, None where there is no queen or she lays."""
    if stopped_laying(state) and state.no_eggs_on is not None:
        return Delayed(table.LOOK_AGAIN.window(state.no_eggs_on))
    if state.stage not in BEFORE_LAYING:
        return None
    seen = last_look(state)
    if seen is not None:
        return delayed(state, table.LOOK_AGAIN.window(seen))
    first = first_window(state)
    if first is None or not weather_known(state):
        return Delayed(first) if first is not None else None
    return delayed(state, first)


@remembered
def last_look(state: UnitState) -> date | None:
    """Give the last day on which eggs were due and none were found."""
    seen = latest_without_eggs(state)
    if seen is None:
        return None
    first = first_window(state)
    return seen if first is None or seen >= first.not_before else None


def latest_without_eggs(state: UnitState) -> date | None:
    """Give the last day a look told of no eggs, or of her without a word on eggs."""
    told = (state.no_eggs_on, state.virgin_seen_on, state.queen_seen_on)
    looks = [day for day in told if day is not None]
    return max(looks) if looks else None


def stopped_laying(state: UnitState) -> bool:
    """Tell whether a queen that laid was later found without eggs."""
    if state.eggs_last_on is None or state.no_eggs_on is None:
        return False
    return state.stage in {Stage.LAYING, Stage.PROVEN} and state.no_eggs_on > state.eggs_last_on


@remembered
def given_up_next(state: UnitState) -> bool:
    """Tell whether a look without eggs came so late that the next one gives her up."""
    seen = last_look(state)
    give_up = give_up_window(state)
    return seen is not None and give_up is not None and seen >= give_up.not_before


@remembered
def give_up_window(state: UnitState) -> Window | None:
    """Give the dates from and by which a queen without eggs is given up, by her own age.

    Best is the day on which she will hardly lay any more, though never before or after the
    published ages, or those moved by the crew's own odds.
    """
    if state.stage not in BEFORE_LAYING:
        return None
    if state.mated_when_placed:
        out = release_day(state)
        return table.GIVE_UP_FROM_RELEASE.window(out) if out is not None else None
    if state.emergence_due is None:
        return None
    by_age = table.GIVE_UP_FROM_EMERGENCE.window(state.emergence_due)
    if state.outlook is None:
        return by_age
    by_age = by_age.moved(state.outlook.shift.give_up)
    return by_age.best_on(min(max(state.outlook.give_up, by_age.not_before), by_age.by))


@remembered
def first_window(state: UnitState) -> Window | None:
    """Give the dates of the first look in fair weather, None where nothing is known of her."""
    if state.mated_when_placed:
        out = release_day(state)
        return table.LAYING_LOOK_FROM_RELEASE.window(out) if out is not None else None
    if state.emergence_due is None:
        return None
    if state.started_by is EntryKind.RAISING_OWN and state.started_on is not None:
        return _by_own_odds(state, _own_window(state.started_on, state.emergence_due))
    published = table.LAYING_LOOK_FROM_EMERGENCE.window(state.emergence_due)
    window = _by_own_odds(state, published)
    if state.started_by is EntryKind.VIRGIN_PLACED and state.started_on is not None:
        return window.not_earlier_than(table.VIRGIN_LEFT_ALONE.after(state.started_on))
    return window


def _by_own_odds(state: UnitState, window: Window) -> Window:
    return state.outlook.shift.look(window) if state.outlook is not None else window


def _own_window(left: date, emerges: date) -> Window:
    """Count from the day the unit was left to itself, moved with what was seen of emergence."""
    expected = table.OWN_EMERGENCE.after(left)
    return table.OWN_LAYING_LOOK.window(left).moved((emerges - expected).days)


def _why(state: UnitState, look: Delayed) -> Why:
    stopped = stopped_laying(state)
    seen = state.no_eggs_on if stopped else last_look(state)
    about = look.window.not_before
    late = None if stopped else too_late_to_mate_well(state, look.window.best)
    if late is not None:
        return Why(Cause.MATES_LATE, seen, late.by, late.days)
    if look.days:
        return Why(Cause.EGGS_DELAYED, seen, about, look.days)
    if seen is not None:
        return Why(Cause.NO_EGGS_YET, seen)
    return Why(Cause.EGGS_EXPECTED, None, about)
