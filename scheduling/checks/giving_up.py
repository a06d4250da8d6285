"""When a queen that does not lay, or workers that do, are given up."""

from datetime import date

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check, Why, due
from scheduling.checks.queen_dates import QueenDates
from scheduling.trade import table
from scheduling.trade.window import Window
from scheduling.units.state import Stage, UnitState


def giving_up(queen: QueenDates) -> tuple[Check, ...]:
    """Give up a late virgin, a mated queen that does not start, or a unit of laying workers."""
    state = queen.state
    if state.stage is Stage.LAYING_WORKERS and state.lost_on is not None:
        soon = table.RECELL_AFTER_LOSS.window(state.lost_on)
        why = Why(Cause.LAYING_WORKERS_SEEN, seen=state.lost_on)
        return (due(state, CheckKind.GIVE_UP, soon, why),)
    by_age, window, seen = queen.give_up_by_age, queen.give_up, queen.last_look
    if by_age is None or window is None or (state.mated_when_placed and seen is None):
        return ()
    follows = CheckKind.LAYING if seen is None else None
    return (due(state, CheckKind.GIVE_UP, window, _why(state, by_age, seen), follows),)


def _why(state: UnitState, by_age: Window, seen: date | None) -> Why:
    if state.mated_when_placed:
        return Why(Cause.NO_EGGS_YET, seen)
    days = table.GIVE_UP_FROM_EMERGENCE.days
    return Why(Cause.LATE_VIRGIN, seen, by_age.by, days)
