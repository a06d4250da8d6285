"""A look's worth is the chance that it pays; all of it invented.

Cells are placed on the first of May, so that the queen is due on the third and her eggs are best
looked for on the fifteenth.
"""

from datetime import date

import pytest

from scheduling.check_kinds import CheckKind
from scheduling.checks.calendar import Calendar
from scheduling.checks.check import Check
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place
from scheduling.visit_plan import Drives, plan_visits
from scheduling.visit_plan.errands import days_away, errands
from scheduling.visit_plan.worth import chances_of, closeness
from tests.scheduling.story import Story, may, unit


def out() -> Story:
    return Story().on(1, EntryKind.CELL_PLACED).on(4, EntryKind.EMERGED)


def look(calendar: Calendar, kind: CheckKind = CheckKind.LAYING) -> Check:
    (found,) = [check for check in calendar.checks[unit()] if check.kind is kind]
    return found


def test_before_its_best_date_a_look_is_worth_its_chance_against_that_of_the_best() -> None:
    calendar = out().calendar()
    worth, chances = chances_of(calendar), calendar.forecasts[unit()]
    for day in (13, 14, 15):
        share = chances.eggs_by(may(day)) / chances.eggs_by(may(15))
        assert worth(look(calendar), may(day)) == pytest.approx(1000 * share, abs=1)


def test_after_its_best_date_it_falls_as_for_any_check() -> None:
    calendar = out().calendar()
    worth = chances_of(calendar)
    assert [worth(look(calendar), may(day)) for day in (15, 16, 17)] == [1000, 750, 500]


def test_whether_she_is_out_is_worth_the_chance_that_she_is() -> None:
    calendar = Story().on(1, EntryKind.CELL_PLACED).calendar()
    asked = look(calendar, CheckKind.EMERGENCE)
    worth = chances_of(calendar)(asked, asked.not_before)
    chances = calendar.forecasts[unit()]
    assert asked.best is not None
    assert worth == round(
        1000 * chances.emerged_by(asked.not_before) / chances.emerged_by(asked.best)
    )


def test_a_check_without_chances_is_worth_what_its_window_says() -> None:
    calendar = out().on(15, EntryKind.EGGS).calendar()
    asked = look(calendar, CheckKind.SEALED_BROOD)
    assert chances_of(calendar)(asked, asked.not_before) == closeness(asked, asked.not_before)


def two_looks(apart: int) -> Calendar:
    """Box 4 placed on the first of May, box 5 ``apart`` days later, both known to be out."""
    story = out()
    five = unit("5a")
    story.on(1 + apart, EntryKind.CELL_PLACED, at=five)
    story.on(4 + apart, EntryKind.EMERGED, at=five)
    return story.calendar()


def visited(calendar: Calendar, first: date) -> dict[Place, date]:
    """When each unit's eggs are looked for."""
    drives = Drives(first)
    every = errands(calendar, drives, chances_of(calendar))
    plan = plan_visits([e for e in every if e.check.kind is CheckKind.LAYING], drives)
    return {check.place: visit.day for visit in plan.visits for check in visit.checks}


def test_one_visit_for_two_looks_is_on_the_day_with_the_best_sum_of_chances() -> None:
    calendar = two_looks(2)
    days = visited(calendar, may(13))
    assert set(days) == {unit(), unit("5a")}
    (day,) = set(days.values())
    every = [check for checks in calendar.checks.values() for check in checks]
    asked = [check for check in every if check.kind is CheckKind.LAYING]
    worth = chances_of(calendar)
    sums = {d: sum(worth(check, may(d)) for check in asked) for d in (15, 16, 17)}
    assert day == may(max(sums, key=lambda d: sums[d]))


def test_days_away_are_all_but_the_weekdays_told() -> None:
    saturday = may(1)
    away = days_away(saturday, {5, 6})
    assert {saturday.weekday(), may(2).weekday()} == {5, 6}
    assert sorted(set(map(may, range(1, 15))) - away) == [may(1), may(2), may(8), may(9)]
    assert days_away(saturday, frozenset(range(7))) == frozenset()


def test_late_work_waits_for_the_first_day_on_which_anybody_goes() -> None:
    calendar = out().calendar()
    late = may(20)
    drives = Drives(late, away=days_away(late, {6}))
    plan = plan_visits(errands(calendar, drives, chances_of(calendar)), drives)
    (asked,) = [v.day for v in plan.visits if look(calendar) in v.checks]
    assert asked == may(23)
