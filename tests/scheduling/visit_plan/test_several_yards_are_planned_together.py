"""Several yards: one day of driving for many of them, and no more yards than the crew can."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scheduling.visit_plan import Drives, plan_visits
from scheduling.visit_plan.errands import Errand
from tests.scheduling.visit_plan.wanted import FIRST, best_of_all, errand, shown, sums_of_plan

YARDS = ("hill", "mill", "river")
DAYS = 4


@st.composite
def errands_of_three_yards(draw: st.DrawFn) -> list[Errand]:
    """Up to eight errands of four days in three yards, some of which can wait."""
    found = []
    for number in range(draw(st.integers(1, 8))):
        first, best, last = sorted(draw(st.tuples(*[st.integers(1, DAYS)] * 3)))
        must = draw(st.sampled_from([True, True, True, False]))
        yard = draw(st.sampled_from(YARDS))
        found.append(errand(first, best, last, f"{number + 1}", yard, must))
    return found


def test_two_yards_are_visited_on_one_day_where_their_windows_allow() -> None:
    wanted = [errand(1, 2, 6, "1a", "hill"), errand(3, 6, 8, "1a", "river")]
    plan = plan_visits(wanted, Drives(FIRST))
    assert [yard for _, yard, _ in shown(plan)] == ["hill", "river"]
    assert len(plan.drive_days) == 1


def test_a_visit_fewer_is_worth_more_than_a_day_of_driving_fewer() -> None:
    """River by itself needs one visit, on day 4; two would share both days of hill."""
    wanted = [
        *(errand(3, 3, 3, "1a", "hill"), errand(5, 5, 5, "1b", "hill")),
        *(errand(3, 3, 4, "1a", "river"), errand(4, 5, 5, "1b", "river")),
    ]
    plan = plan_visits(wanted, Drives(FIRST))
    assert [(day, yard) for day, yard, _ in shown(plan)] == [
        (3, "hill"),
        (4, "river"),
        (5, "hill"),
    ]


def test_the_limit_of_yards_a_day_spreads_them() -> None:
    wanted = [errand(3, 3, 5, "1a", yard) for yard in YARDS]
    plan = plan_visits(wanted, Drives(FIRST, yards_a_day=1))
    assert plan.drive_days == tuple(sorted(plan.drive_days))
    assert [day for day, _, _ in shown(plan)] == [3, 4, 5]
    assert len(plan_visits(wanted, Drives(FIRST)).drive_days) == 1


def test_where_the_limit_leaves_no_room_the_fewest_checks_go_undone_and_are_named() -> None:
    small = errand(2, 2, 2, "1a", "hill")
    large = [errand(2, 2, 2, unit, "river") for unit in ("1a", "1b")]
    plan = plan_visits([small, *large], Drives(FIRST, yards_a_day=1))
    assert shown(plan) == [(2, "river", "1a 1b")]
    assert plan.unserved == (small.check,)


def test_a_full_day_may_cost_a_yard_a_second_visit_rather_than_a_window() -> None:
    """Mill could do with day 3 alone, but hill holds that day."""
    wanted = [
        errand(3, 3, 3, "1a", "hill"),
        *(errand(2, 3, 3, "1a", "mill"), errand(3, 3, 4, "1b", "mill")),
    ]
    plan = plan_visits(wanted, Drives(FIRST, yards_a_day=1))
    assert shown(plan) == [(2, "mill", "1a"), (3, "hill", "1a"), (4, "mill", "1b")]
    assert plan.unserved == ()


@settings(max_examples=60, deadline=None)
@given(errands_of_three_yards(), st.sampled_from([None, 1, 2]))
def test_no_choice_of_days_is_better_for_all_together(
    wanted: list[Errand], limit: int | None
) -> None:
    drives = Drives(FIRST, days=DAYS, yards_a_day=limit)
    plan = plan_visits(wanted, drives)
    assert sums_of_plan(wanted, plan) == best_of_all(wanted, drives)
    assert plan.exact


@settings(max_examples=25, deadline=None)
@given(errands_of_three_yards())
def test_planned_together_no_yard_has_more_visits_than_planned_by_itself(
    wanted: list[Errand],
) -> None:
    """The solver and the method for one yard hold each other to the same number."""
    drives = Drives(FIRST, days=DAYS)
    together = [visit.yard for visit in plan_visits(wanted, drives).visits]
    for yard in YARDS:
        alone = plan_visits([each for each in wanted if each.yard == yard], drives)
        assert together.count(yard) == len(alone.visits)


def test_the_same_errands_always_give_the_same_plan() -> None:
    wanted = [errand(1 + n % 5, 3 + n % 5, 6 + n % 5, f"{n + 1}", YARDS[n % 3]) for n in range(30)]
    plans = [plan_visits(wanted, Drives(FIRST, yards_a_day=limit)) for limit in (2, 2)]
    assert plans[0] == plans[1]


def test_the_solver_writes_nothing_to_the_terminal(capfd: pytest.CaptureFixture[str]) -> None:
    plan_visits([errand(1, 2, 3, "1a", yard) for yard in YARDS], Drives(FIRST, yards_a_day=1))
    assert capfd.readouterr() == ("", "")
