"""When a queen that does not lay, or workers that do, are given up."""

from datetime import date

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check, Why
from scheduling.checks.due import due
from scheduling.checks.laying import give_up_window, last_look, laying_look
from scheduling.checks.remembered import remembered
from scheduling.trade import table
from scheduling.trade.window import Window, days_after
from scheduling.units.state import Stage, UnitState


def giving_up(state: UnitState) -> tuple[Check, ...]:
    """Give up a late virgin, a mated queen that does not start, or a unit of laying workers."""
    if state.stage is Stage.LAYING_WORKERS and state.lost_on is not None:
        soon = table.RECELL_AFTER_LOSS.window(state.lost_on)
        why = Why(Cause.LAYING_WORKERS_SEEN, seen=state.lost_on)
        return (due(state, CheckKind.GIVE_UP, soon, why),)
    by_age, window = give_up_window(state), giving_up_dates(state)
    seen = last_look(state)
    if by_age is None or window is None or (state.mated_when_placed and seen is None):
        return ()
    follows = CheckKind.LAYING if seen is None else None
    return (due(state, CheckKind.GIVE_UP, window, _why(state, by_age, seen), follows),)


@remembered
def giving_up_dates(state: UnitState) -> Window | None:
    """Share the opening of the next look for eggs; after a late look wait to the last date."""
    by_age, seen = give_up_window(state), last_look(state)
    if by_age is None:
        return None
    if seen is not None and seen >= by_age.not_before:
        last = max(by_age.by, days_after(seen, 1))
        return Window(min(days_after(seen, int(table.LOOK_AGAIN.low)), last), last, last)
    look = laying_look(state)
    return by_age.not_earlier_than(look.window.best) if look is not None else by_age


def _why(state: UnitState, by_age: Window, seen: date | None) -> Why:
    if state.mated_when_placed:
        return Why(Cause.NO_EGGS_YET, seen)
    days = table.GIVE_UP_FROM_EMERGENCE.days
    return Why(Cause.LATE_VIRGIN, seen, by_age.by, days)
