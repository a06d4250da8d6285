"""The look for her first eggs."""

from dataclasses import dataclass
from datetime import date

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check, Why, due
from scheduling.checks.queen_dates import Look, QueenDates, stopped_laying
from scheduling.trade import table
from scheduling.units.state import Stage, UnitState


@dataclass(frozen=True)
class Late:
    """A queen so old at a look that fewer of her age mate well.

    Attributes:
        days: her age in days at the look.
        by: the date from which she can no more mate.

    """

    days: int
    by: date


def laying(queen: QueenDates) -> tuple[Check, ...]:
    """Look for eggs when they can be expected, and again when there were none."""
    look, state = queen.look, queen.state
    if look is None or queen.given_up_next:
        return ()
    follows = CheckKind.RELEASE if state.stage is Stage.CAGED else None
    return (due(state, CheckKind.LAYING, look.window, _why(queen, look), follows),)


def too_late_to_mate_well(state: UnitState, day: date) -> Late | None:
    """Tell how old she is on ``day`` if fewer queens of that age mate well, else None."""
    hatched = state.emergence_due
    if hatched is None or state.mated_when_placed:
        return None
    limits = table.GIVE_UP_FROM_EMERGENCE.window(hatched)
    return Late((day - hatched).days, limits.by) if day > limits.not_before else None


def _why(queen: QueenDates, look: Look) -> Why:
    stopped = stopped_laying(queen.state)
    seen = queen.state.no_eggs_on if stopped else queen.last_look
    about = look.window.not_before
    late = None if stopped else too_late_to_mate_well(queen.state, look.window.best)
    if late is not None:
        return Why(Cause.MATES_LATE, seen, late.by, late.days)
    if look.days_late:
        return Why(Cause.EGGS_DELAYED, seen, about, look.days_late)
    if seen is not None:
        return Why(Cause.NO_EGGS_YET, seen)
    return Why(Cause.EGGS_EXPECTED, None, about)
