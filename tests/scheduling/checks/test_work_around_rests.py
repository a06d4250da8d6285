"""Food and traps keep out of a rest, and go along with a look at the queen.

That looks are few while a young queen matures and mates, and that one opening serves for what is
due about then, is common practice, no source.
"""

from datetime import date

import pytest

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check, Why
from scheduling.checks.rests import around_rests, in_rest
from tests.scheduling.story import in_may, may, unit

REST = Check(unit(), CheckKind.REST, may(10), None, may(20), Why(Cause.MATURING_AND_MATING))
OPENED = may(10)
"""Opened on the first day of the rest, so that nothing can be done on the day before."""


def work(best: int, cause: Cause = Cause.TRAP_FULL, kind: CheckKind = CheckKind.TRAP) -> Check:
    return Check(unit(), kind, may(best), may(best), may(best + 3), Why(cause))


def look(best: int, follows: CheckKind | None = None) -> Check:
    dates = may(best), may(best), may(best + 3)
    return Check(unit(), CheckKind.LAYING, *dates, Why(Cause.EGGS_EXPECTED), follows)


def day_of(check: Check, *others: Check, looked_on: date | None = OPENED) -> int:
    (moved,) = around_rests([check], others, looked_on)
    assert moved.best is not None
    return in_may(moved.best)


@pytest.mark.parametrize(("day", "rests"), [(9, False), (10, True), (20, True), (21, False)])
def test_a_rest_holds_from_its_first_day_to_its_last(day: int, rests: bool) -> None:
    assert (in_rest((REST,), may(day)) is REST) is rests


def test_without_a_rest_nothing_moves() -> None:
    assert around_rests([work(12)], [look(14)], None) == [work(12)]


def test_a_trap_in_a_rest_waits_for_its_end() -> None:
    assert day_of(work(12), REST) == 21


def test_it_is_done_before_the_rest_where_that_is_not_too_soon() -> None:
    early = Check(unit(), CheckKind.TRAP, may(8), may(12), may(15), Why(Cause.TRAP_FULL))
    assert day_of(early, REST, looked_on=may(5)) == 9
    assert day_of(early, REST, looked_on=may(9)) == 21


def test_a_look_at_the_queen_within_two_days_takes_it_along() -> None:
    assert day_of(work(12), REST, look(23)) == 23
    assert day_of(work(12), REST, look(24)) == 21


def test_a_look_that_is_only_foreseen_takes_nothing_along() -> None:
    assert day_of(work(12), REST, look(23, follows=CheckKind.EMERGENCE)) == 21


@pytest.mark.parametrize("kind", [CheckKind.FEED, CheckKind.TRAP, CheckKind.BOOST])
def test_other_work_on_the_colony_is_no_look_at_the_queen(kind: CheckKind) -> None:
    assert day_of(work(12), REST, work(23, Cause.BEES_RUN_SHORT, kind)) == 21


@pytest.mark.parametrize("cause", [Cause.FOOD_LOW, Cause.FOOD_RUNS_LOW, Cause.ROBBED])
def test_what_is_done_under_the_lid_does_not_wait(cause: Cause) -> None:
    assert day_of(work(12, cause, CheckKind.FEED), REST) == 12
