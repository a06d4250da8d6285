"""The looks at a queen: whether she is out, lays and has brood; until she is taken or given up."""

from dataclasses import dataclass
from datetime import date

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check, Why, due, put_off
from scheduling.checks.queen_dates import (
    WITH_QUEEN,
    Look,
    QueenDates,
    emergence_window,
    release_window,
    stopped_laying,
)
from scheduling.trade import table
from scheduling.trade.constant import Window
from scheduling.units.state import Stage, UnitState
from scheduling.values import Pattern


def emergence(state: UnitState) -> tuple[Check, ...]:
    """Look once whether she is out, while she is too young to fly."""
    window = emergence_window(state)
    if window is None:
        return ()
    return (due(state, CheckKind.EMERGENCE, window, _why_looked_into(state, window)),)


def _why_looked_into(state: UnitState, window: Window) -> Why:
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


def brood(queen: QueenDates) -> tuple[Check, ...]:
    """Look for sealed brood, then take her; before her first eggs both are foreseen only."""
    first_eggs, state = _first_eggs(queen), queen.state
    if first_eggs is None or stopped_laying(state):
        return ()
    sealed = _sealed_brood(state, first_eggs)
    return (*sealed, _take(state, first_eggs, sealed))


def _first_eggs(queen: QueenDates) -> date | None:
    if queen.state.stage not in WITH_QUEEN or queen.given_up_next:
        return None
    look = queen.look
    return queen.state.eggs_on or (look.window.best if look is not None else None)


def _sealed_brood(state: UnitState, first_eggs: date) -> tuple[Check, ...]:
    if state.stage is Stage.PROVEN:
        return ()
    if state.pattern is Pattern.SPOTTY and state.sealed_on is not None:
        window = table.LOOK_AGAIN.window(state.sealed_on)
        spotty = Why(Cause.SPOTTY_BROOD, state.sealed_on)
        return (due(state, CheckKind.SEALED_BROOD, window, spotty),)
    window = table.SEALED_BROOD_LOOK.window(first_eggs)
    seals = Why(Cause.WORKER_BROOD_SEALS, state.eggs_on, window.not_before)
    follows = CheckKind.LAYING if state.eggs_on is None else None
    return (due(state, CheckKind.SEALED_BROOD, window, seals, follows),)


def _take(state: UnitState, first_eggs: date, sealed: tuple[Check, ...]) -> Check:
    """Let her be taken once she is proven and has laid long enough; she may stay longer."""
    proven = state.sealed_on if not sealed else sealed[0].best
    assert proven is not None  # noqa: S101 - she is proven, or a look for it has its date
    ready = max(proven, table.TAKE_FROM_EGGS.after(first_eggs))
    long_enough = Why(Cause.LAYING_LONG_ENOUGH, state.eggs_on, ready)
    follows = CheckKind.SEALED_BROOD if sealed else None
    check = Check(state.place, CheckKind.TAKE, ready, ready, None, long_enough, follows)
    return put_off(check, state.put_offs)


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
    return (due(state, CheckKind.GIVE_UP, window, _why_given_up(state, by_age, seen), follows),)


def _why_given_up(state: UnitState, by_age: Window, seen: date | None) -> Why:
    if state.mated_when_placed:
        return Why(Cause.NO_EGGS_YET, seen)
    days = table.GIVE_UP_FROM_EMERGENCE.days
    return Why(Cause.LATE_VIRGIN, seen, by_age.by, days)
