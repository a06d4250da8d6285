"""When a unit must be left alone, and why."""

from datetime import date

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check, Why
from scheduling.checks.emergence import emergence_window
from scheduling.checks.queen_dates import BEFORE_LAYING, QueenDates
from scheduling.checks.release import release_window
from scheduling.trade import table
from scheduling.trade.window import days_after
from scheduling.units.state import Stage, UnitState


def rests(queen: QueenDates, queen_checks: tuple[Check, ...]) -> tuple[Check, ...]:
    """Rest between the looks that a young queen needs, given those looks."""
    if queen.state.stage not in BEFORE_LAYING:
        return ()
    return (*_settling(queen.state), *_until_eggs(queen, queen_checks))


def _settling(state: UnitState) -> tuple[Check, ...]:
    """Leave a new cell or cage alone until the first look at it."""
    window = emergence_window(state) or release_window(state)
    if window is None or state.looked_on is None:
        return ()
    return _rest(state, days_after(state.looked_on, 1), window.not_before, Cause.SETTLING)


def _until_eggs(queen: QueenDates, queen_checks: tuple[Check, ...]) -> tuple[Check, ...]:
    """Leave the queen alone until eggs are looked for: she matures, flies and mates, or settles."""
    state = queen.state
    first, end = _first_day(state, queen_checks), _next_look(queen)
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


def _next_look(queen: QueenDates) -> date | None:
    """Give the earliest date of the next look, as nature has it: a put-off makes no rest longer."""
    if queen.given_up_next:
        return queen.give_up.not_before if queen.give_up is not None else None
    return queen.look.window.not_before if queen.look is not None else None


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
