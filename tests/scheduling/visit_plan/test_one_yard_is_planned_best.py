"""The visits of one yard: few, in time, and close to the best days."""

from collections.abc import Sequence
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduling.visit_plan import Drives, plan_visits
from scheduling.visit_plan.errands import Errand
from tests.scheduling.story import may
from tests.scheduling.visit_plan.wanted import (
    FIRST,
    best_of_all,
    errand,
    shown,
    sums_of_plan,
)

WEEK = Drives(FIRST, days=7)


@st.composite
def errands_of_a_week(draw: st.DrawFn, yards: Sequence[str] = ("river",)) -> list[Errand]:
    """Up to seven errands of a week, any window, some of which can wait."""
    found = []
    for number in range(draw(st.integers(1, 7))):
        first, best, last = sorted(draw(st.tuples(*[st.integers(1, 7)] * 3)))
        yard = draw(st.sampled_from(yards))
        must = draw(st.sampled_from([True, True, True, False]))
        found.append(errand(first, best, last, f"{number + 1}", yard, must))
    return found


def test_three_windows_that_share_a_day_take_one_visit() -> None:
    wanted = [errand(1, 2, 5, "1a"), errand(4, 5, 9, "1b"), errand(3, 6, 8, "1c")]
    plan = plan_visits(wanted, Drives(FIRST))
    assert shown(plan) == [(5, "river", "1a 1b 1c")]
    assert plan.exact


def test_two_windows_that_share_no_day_take_two_visits_each_on_its_best() -> None:
    plan = plan_visits([errand(1, 2, 3, "1a"), errand(5, 6, 9, "1b")], Drives(FIRST))
    assert shown(plan) == [(2, "river", "1a"), (6, "river", "1b")]


def test_of_the_days_that_serve_all_the_one_closest_to_the_best_dates_is_taken() -> None:
    wanted = [errand(1, 4, 7, "1a"), errand(1, 4, 7, "1b"), errand(1, 6, 7, "1c")]
    assert shown(plan_visits(wanted, Drives(FIRST))) == [(4, "river", "1a 1b 1c")]


def test_between_equal_days_the_earlier_one_is_taken() -> None:
    alike = [errand(3, 3, 4, "1a"), errand(3, 4, 4, "1b")]
    assert shown(plan_visits(alike, Drives(FIRST))) == [(3, "river", "1a 1b")]


def test_with_two_visits_each_check_is_done_at_the_one_that_is_worth_more_to_it() -> None:
    wanted = [errand(1, 1, 1, "1a"), errand(7, 7, 7, "1b"), errand(1, 6, 8, "1c")]
    assert shown(plan_visits(wanted, Drives(FIRST))) == [(1, "river", "1a"), (7, "river", "1b 1c")]


def test_what_can_wait_rides_along_but_is_no_reason_to_drive() -> None:
    along, alone = errand(1, 3, 9, "1b", must=False), errand(8, 9, 9, "1c", must=False)
    plan = plan_visits([errand(2, 3, 4, "1a"), along, alone], Drives(FIRST))
    assert shown(plan) == [(3, "river", "1a 1b")]
    assert plan.waiting == (alone.check,)
    assert plan_visits([alone], Drives(FIRST)).visits == ()


def test_nothing_asked_for_is_no_visit() -> None:
    assert plan_visits([], Drives(FIRST)).visits == ()


@given(errands_of_a_week())
def test_no_choice_of_days_is_better(wanted: list[Errand]) -> None:
    plan = plan_visits(wanted, WEEK)
    assert sums_of_plan(wanted, plan) == best_of_all(wanted, WEEK)
    assert plan.unserved == ()


@given(errands_of_a_week())
def test_as_many_visits_as_there_are_windows_of_which_no_two_share_a_day(
    wanted: list[Errand],
) -> None:
    """Fewest points that meet all intervals = most intervals apart from each other.

    A duality of interval graphs (Gallai; from memory). Intervals apart are counted by taking the
    one that ends first, again and again.
    """
    apart, reached = 0, date.min
    for each in sorted((e for e in wanted if e.must), key=lambda e: e.days[-1]):
        if each.days[0] > reached:
            apart, reached = apart + 1, each.days[-1]
    assert len(plan_visits(wanted, WEEK).visits) == apart


@given(errands_of_a_week())
def test_every_check_is_done_once_in_its_window_or_named(wanted: list[Errand]) -> None:
    plan = plan_visits(wanted, WEEK)
    done = [(check, visit.day) for visit in plan.visits for check in visit.checks]
    told = [*(check for check, _ in done), *plan.unserved, *plan.waiting]
    assert sorted(map(str, told)) == sorted(str(each.check) for each in wanted)
    assert all(c.not_before <= day <= (c.by or day) for c, day in done)


def test_days_of_an_errand_are_not_parted_by_a_day_that_serves_another_only() -> None:
    parted = errand(1, 1, 3, "1a")
    parted = Errand(parted.check, (may(1), may(3)), (1000, 500))
    with pytest.raises(ValueError, match="parted"):
        plan_visits([parted, errand(2, 2, 2, "1b")], Drives(FIRST))
