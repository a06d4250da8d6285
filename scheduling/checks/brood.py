"""Proof of a queen by her sealed brood, and when she may be taken."""

from datetime import date

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check, Why, due, put_off
from scheduling.checks.queen_dates import BEFORE_LAYING, QueenDates, stopped_laying
from scheduling.trade import table
from scheduling.units.state import Stage, UnitState
from scheduling.values import Pattern

WITH_QUEEN = BEFORE_LAYING | {Stage.LAYING, Stage.PROVEN}


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
