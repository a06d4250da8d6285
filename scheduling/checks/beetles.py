"""When a unit's beetle trap is set and emptied."""

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check, Why, due
from scheduling.entry_kinds import EntryKind
from scheduling.trade import table
from scheduling.trade.constant import Constant
from scheduling.units.state import UnitState
from scheduling.values import TrapCount


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
