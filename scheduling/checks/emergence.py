"""The look whether the queen is out, of her cell or of the cage she came in."""

from datetime import date

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check, Why, due
from scheduling.trade import table
from scheduling.trade.constant import Window, days_after
from scheduling.units.state import Stage, UnitState


def emergence(state: UnitState) -> tuple[Check, ...]:
    """Look once whether she is out, while she is too young to fly."""
    window = emergence_window(state)
    if window is None:
        return ()
    return (due(state, CheckKind.EMERGENCE, window, _why(state, window)),)


def emergence_window(state: UnitState) -> Window | None:
    """Give the dates of the look, None where no cell is waited for.

    A unit that raises its own queen is not opened for it: its cells' age is not known, and more
    than one may be alive.
    """
    first = _first_window(state) if state.stage is Stage.CELL else None
    if first is None:
        return None
    if state.started_on is not None:
        first = first.not_earlier_than(days_after(state.started_on, 1))
    sealed = state.still_sealed_on
    if sealed is None or sealed < first.not_before:
        return first
    return table.STILL_SEALED_LOOK.window(sealed)


def _first_window(state: UnitState) -> Window | None:
    """Count from the graft, or from the look that found a cell of unknown age."""
    if state.grafted_on is not None:
        return table.EMERGENCE_LOOK_FROM_GRAFT.window(state.grafted_on)
    seen = state.still_sealed_on
    return table.STILL_SEALED_LOOK.window(seen) if seen is not None else None


def _why(state: UnitState, window: Window) -> Why:
    sealed = state.still_sealed_on
    if sealed is not None and sealed < window.not_before:
        return Why(Cause.STILL_SEALED, sealed, state.emergence_due)
    return Why(Cause.SHOULD_BE_OUT, None, state.emergence_due)


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
