"""The look whether the caged queen is out."""

from datetime import date

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check, Why, due
from scheduling.trade import table
from scheduling.trade.window import Window
from scheduling.units.state import Stage, UnitState


def release(state: UnitState) -> tuple[Check, ...]:
    """See that the bees have let her out, and let her out if they have not."""
    window = release_window(state)
    if window is None:
        return ()
    why = Why(Cause.CANDY_EATEN, about=window.best, days=table.RELEASE_LOOK.days)
    if state.still_caged_on is not None:
        why = Why(Cause.STILL_CAGED, seen=state.still_caged_on)
    return (due(state, CheckKind.RELEASE, window, why),)


def release_window(state: UnitState) -> Window | None:
    """Give the dates of the look, None where no queen is caged."""
    if state.stage is not Stage.CAGED or state.started_on is None:
        return None
    if state.still_caged_on is not None:
        return table.RELEASE_AGAIN.window(state.still_caged_on)
    return table.RELEASE_LOOK.window(state.started_on)


def release_day(state: UnitState) -> date | None:
    """Give the day a mated queen was let out, or is expected to be."""
    if state.released_on is not None:
        return state.released_on
    window = release_window(state)
    return window.best if window is not None else state.started_on
