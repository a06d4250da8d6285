"""Making a check, with what the keeper put off taken into account."""

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check, Why
from scheduling.trade.window import Window
from scheduling.units.state import UnitState
from scheduling.values import PutOff


def due(
    state: UnitState, kind: CheckKind, window: Window, why: Why, follows: CheckKind | None = None
) -> Check:
    """Make a check of a unit, later if it was put off."""
    check = Check(state.place, kind, window.not_before, window.best, window.by, why, follows)
    return put_off(check, state.put_offs) if state.put_offs else check


def put_off(check: Check, put_offs: tuple[PutOff, ...]) -> Check:
    """Move the check to the date it was put off to, if that is later than its best date."""
    if not put_offs:
        return check
    until = max((p.until for p in put_offs if p.check is check.kind), default=None)
    if until is None or check.best is None or until <= check.best:
        return check
    by = max(check.by, until) if check.by is not None else None
    not_before = max(check.not_before, until)
    why = Why(Cause.PUT_OFF, seen=check.why.seen, about=until)
    return Check(check.place, check.kind, not_before, until, by, why, check.follows)
