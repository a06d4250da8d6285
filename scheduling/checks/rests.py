"""When a unit must be left alone, and why; food and traps are moved out of those days."""

from collections.abc import Iterable, Sequence
from datetime import date

from scheduling.check_kinds import CHECK_FACTS, CheckKind, Work
from scheduling.checks.check import Cause, Check, Why
from scheduling.checks.queen_dates import (
    BEFORE_LAYING,
    QueenDates,
    emergence_window,
    release_window,
)
from scheduling.trade import table
from scheduling.trade.constant import Window, days_after
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


UNDER_THE_LID = frozenset({Cause.FOOD_LOW, Cause.FOOD_RUNS_LOW, Cause.ROBBED, Cause.FEW_BEES})
"""What cannot wait: done towards evening, lid only, rest or no rest."""


def in_rest(checks: tuple[Check, ...], day: date) -> Check | None:
    """Give the rest among the checks that is in force on ``day``, if there is one."""
    for check in checks:
        in_force = check.kind is CheckKind.REST and check.follows is None
        if in_force and check.not_before <= day <= (check.by or check.not_before):
            return check
    return None


def around_rests(
    work: Iterable[Check], others: Sequence[Check], looked_on: date | None
) -> list[Check]:
    """Move a unit's feeds and traps out of the rests among its other checks.

    Each goes onto the last day before, if that is not too soon after the last service and
    the unit has not been opened and closed again since; else onto the first day after it. A look
    at the queen that is due within two days of the new date takes it along.
    """
    rests = tuple([check for check in others if check.kind is CheckKind.REST])
    if not rests:
        return [*work]
    looks = [check.best for check in others if check.best is not None and _is_a_look(check)]
    return [_around(check, rests, looks, looked_on) for check in work]


def _is_a_look(check: Check) -> bool:
    """Tell whether it is a look at the queen that is due, not only foreseen."""
    return check.follows is None and CHECK_FACTS[check.kind].work is Work.QUEEN


def _around(
    check: Check, rests: tuple[Check, ...], looks: Sequence[date], looked_on: date | None
) -> Check:
    if check.best is None or check.why.cause in UNDER_THE_LID:
        return check
    if in_rest(rests, check.best) is None:
        return check
    before = _day_before(check, rests, looks, looked_on)
    day = before if before is not None else _day_after(check.best, rests, looks)
    return _on(check, day)


def _on(check: Check, day: date) -> Check:
    assert check.best is not None and check.by is not None  # noqa: S101, PT018 - a dated check
    window = Window(check.not_before, check.best, check.by).best_on(day)
    dates = window.not_before, window.best, window.by
    return Check(check.place, check.kind, *dates, check.why, check.follows)


def _day_before(
    check: Check, rests: tuple[Check, ...], looks: Sequence[date], looked_on: date | None
) -> date | None:
    assert check.best is not None  # noqa: S101 - asked only of dated checks
    day = check.best
    while (rest := in_rest(rests, day)) is not None:
        day = days_after(rest.not_before, -1)
    too_soon = looked_on is not None and day <= looked_on
    if day < check.not_before or too_soon:
        return None
    joined = table.VISIT_JOINED.before(day)
    shared = [look for look in looks if max(joined, check.not_before) <= look <= day]
    return max(shared, default=day)


def _day_after(day: date, rests: tuple[Check, ...], looks: Sequence[date]) -> date:
    while (rest := in_rest(rests, day)) is not None:
        day = days_after(rest.by or rest.not_before, 1)
    latest = table.VISIT_JOINED.after(day)
    shared = [look for look in looks if day <= look <= latest and in_rest(rests, look) is None]
    return min(shared, default=day)
