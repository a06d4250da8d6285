"""When a unit must be left alone, and why."""

from datetime import date

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check, Why
from scheduling.checks.emergence import emergence_window
from scheduling.checks.giving_up import giving_up_dates
from scheduling.checks.laying import BEFORE_LAYING, given_up_next, laying_look
from scheduling.checks.release import release_window
from scheduling.trade import table
from scheduling.trade.window import days_after
from scheduling.units.state import Stage, UnitState


def rests(state: UnitState, queen_checks: tuple[Check, ...]) -> tuple[Check, ...]:
    """Rest between the looks that a young queen needs, given those looks."""
    if state.stage not in BEFORE_LAYING:
        return ()
    return (*_settling(state), *_until_eggs(state, queen_checks))


def _settling(state: UnitState) -> tuple[Check, ...]:
    """Leave a new cell or cage alone until the first look at it."""
    window = emergence_window(state) or release_window(state)
    if window is None or state.looked_on is None:
        return ()
    return _rest(state, days_after(state.looked_on, 1), window.not_before, Cause.SETTLING)


def _until_eggs(state: UnitState, queen_checks: tuple[Check, ...]) -> tuple[Check, ...]:
    """Leave the queen alone until eggs are looked for: she matures, flies and mates, or settles."""
    first, end = _first_day(state, queen_checks), _next_look(state)
    if first is None or end is None:
        return ()
    cause = Cause.SETTLING if state.mated_when_placed else Cause.MATURING_AND_MATING
    follows = CheckKind.RELEASE if state.stage is Stage.CAGED else None
    return _rest(state, first, end, cause, follows)


_OF_HER_COMING = frozenset({CheckKind.EMERGENCE, CheckKind.RELEASE})


def _first_day(state: UnitState, queen_checks: tuple[Check, ...]) -> date | None:
    """Start after the last look, or after the last useful date of the one still open."""
    open_until = [check.by for check in queen_checks if check.kind in _OF_HER_COMING and check.by]
    if open_until:
        return days_after(max(open_until), 1)
    if state.looked_on is None:
        return None
    after_look = days_after(state.looked_on, 1)
    if state.stage is Stage.RAISING_OWN and state.started_on is not None:
        return max(after_look, days_after(state.started_on, int(table.OWN_EMERGENCE.low)))
    return after_look


def _next_look(state: UnitState) -> date | None:
    """Give the earliest date of the next look, as nature has it: a put-off makes no rest longer."""
    if given_up_next(state):
        window = giving_up_dates(state)
        return window.not_before if window is not None else None
    look = laying_look(state)
    return look.window.not_before if look is not None else None


def _rest(
    state: UnitState, first: date, end: date, cause: Cause, follows: CheckKind | None = None
) -> tuple[Check, ...]:
    """Rest from ``first`` until the day before ``end``, if any days lie between."""
    last = days_after(end, -1)
    if last < first:
        return ()
    about = last if cause is Cause.MATURING_AND_MATING else None
    because = Why(cause, None, about)
    return (Check(state.place, CheckKind.REST, first, None, last, because, follows),)
