"""When a unit's beetle trap is set and emptied."""

from scheduling.checks.check import Cause, Check, CheckKind, Why
from scheduling.checks.due import due
from scheduling.trade import table
from scheduling.units.state import UnitState


def beetles(state: UnitState) -> tuple[Check, ...]:
    """Set the trap on the day of make-up, and empty it every week, sooner after many beetles.

    A unit of which neither make-up nor trap was ever told has none due: not every keeper lives
    where there are beetles.
    """
    if state.trap_on is not None and (state.beetles or 0) >= table.MANY_BEETLES.value:
        why = Why(Cause.MANY_BEETLES, seen=state.trap_on, beetles=state.beetles)
        return (due(state, CheckKind.TRAP, table.TRAP_SERVICE_MANY.window(state.trap_on), why),)
    if state.trap_on is not None:
        days = table.TRAP_SERVICE.days
        why = Why(Cause.TRAP_FULL, seen=state.trap_on, days=days)
        return (due(state, CheckKind.TRAP, table.TRAP_SERVICE.window(state.trap_on), why),)
    if state.made_up_on is not None:
        why = Why(Cause.TRAP_FULL, about=state.made_up_on)
        return (due(state, CheckKind.TRAP, table.TRAP_IN.window(state.made_up_on), why),)
    return ()
