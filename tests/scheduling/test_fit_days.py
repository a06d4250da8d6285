"""Checks wait for a day fit for opening, and none gets lost; all units and days are invented."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check, Why
from scheduling.places import Place, UnitName
from scheduling.visits import DayPlan, Due, Waiting, fit_day, moved_to_fit_days, unfit_days
from scheduling.weather.day import DayOfWeather
from scheduling.weather.fit_hours import Unfit
from scheduling.weather.yard_weather import NO_WEATHER, YardWeather

TODAY = date(2027, 5, 12)
LOOK = Check(
    Place("River", UnitName(4, "a")),
    CheckKind.LAYING,
    TODAY - timedelta(days=2),
    TODAY,
    TODAY + timedelta(days=2),
    Why(Cause.EGGS_EXPECTED),
)
EMERGENCE = Check(
    Place("River", UnitName(4, "b")),
    CheckKind.EMERGENCE,
    TODAY - timedelta(days=1),
    TODAY,
    TODAY + timedelta(days=1),
    Why(Cause.SHOULD_BE_OUT),
)
HUNGRY = Check(
    Place("River", UnitName(4, "c")), CheckKind.FEED, TODAY, TODAY, TODAY, Why(Cause.FOOD_LOW)
)


def days(*unfit: Unfit | None) -> YardWeather:
    """What forbids opening today, tomorrow and so on."""
    return YardWeather(
        days={TODAY + timedelta(days=n): DayOfWeather(unfit=each) for n, each in enumerate(unfit)}
    )


def later(count: int) -> date:
    return TODAY + timedelta(days=count)


def test_on_a_fit_day_or_one_of_unknown_weather_nothing_moves() -> None:
    assert fit_day(LOOK, TODAY, days(None)) == TODAY
    assert fit_day(LOOK, TODAY, NO_WEATHER) == TODAY


def test_a_look_waits_for_the_first_fit_day() -> None:
    assert fit_day(LOOK, TODAY, days(Unfit.COLD, Unfit.WET, None)) == later(2)


def test_it_waits_even_past_its_last_date_but_not_for_ever() -> None:
    assert fit_day(LOOK, TODAY, days(*[Unfit.WET] * 4, None)) == later(4)
    assert fit_day(LOOK, TODAY, days(*[Unfit.WET] * 5, None)) == TODAY


def test_a_look_that_lapses_waits_only_while_it_is_of_use() -> None:
    """From the day after she should be out, an unopened unit is left to her flights."""
    assert fit_day(EMERGENCE, TODAY, days(Unfit.COLD, None)) == later(1)
    assert fit_day(EMERGENCE, TODAY, days(Unfit.COLD, Unfit.COLD, None)) == TODAY


def test_hungry_bees_do_not_wait_for_the_sun() -> None:
    assert fit_day(HUNGRY, TODAY, days(Unfit.COLD, None)) == TODAY


def test_the_plan_says_what_waits_until_when_and_why() -> None:
    plan = DayPlan(TODAY, (Due(LOOK), Due(HUNGRY)))
    moved = moved_to_fit_days(plan, {"River": days(Unfit.WINDY, None)})
    assert moved.due == (Due(HUNGRY),)
    assert moved.waiting == (Waiting(LOOK, later(1), Unfit.WINDY),)


def test_each_yard_has_its_own_weather() -> None:
    plan = DayPlan(TODAY, (Due(LOOK),))
    assert moved_to_fit_days(plan, {"Ridge": days(Unfit.WET, None)}) == plan


def test_unfit_dates_are_given_for_planning_drives() -> None:
    known = {"River": days(Unfit.WET, None, Unfit.COLD), "Ridge": days(None)}
    assert unfit_days(known) == {"River": {TODAY, later(2)}, "Ridge": frozenset()}


SOME_DAYS = st.lists(st.sampled_from([None, *Unfit]), max_size=10)


@given(weather=SOME_DAYS, check=st.sampled_from([LOOK, EMERGENCE, HUNGRY]))
def test_nothing_is_lost_and_nobody_waits_for_an_unfit_day(
    weather: list[Unfit | None], check: Check
) -> None:
    plan = moved_to_fit_days(DayPlan(TODAY, (Due(check),)), {"River": days(*weather)})
    assert [item.check for item in plan.due] + [item.check for item in plan.waiting] == [check]
    for item in plan.waiting:
        ahead = (item.until - TODAY).days
        assert 1 <= ahead <= 4
        assert ahead >= len(weather) or weather[ahead] is None
        assert all(each is not None for each in weather[:ahead])


@pytest.mark.parametrize("overdue", [True, False])
def test_what_is_overdue_waits_too_and_is_not_hidden(overdue: bool) -> None:
    plan = DayPlan(TODAY, (Due(LOOK, overdue),))
    moved = moved_to_fit_days(plan, {"River": days(Unfit.WET, None)})
    assert [item.check for item in moved.waiting] == [LOOK]
