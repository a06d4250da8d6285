"""Which days serve a check: its window, the crew's days, the weather, and rest for the queen."""

from datetime import date

import pytest

from scheduling.check_kinds import CheckKind
from scheduling.checks.calendar import Calendar
from scheduling.checks.check import Cause, Check, Why
from scheduling.entry_kinds import EntryKind
from scheduling.trade.constant import days_after
from scheduling.units.state import UnitState
from scheduling.values import CellAge
from scheduling.visit_plan import Drives, plan_visits
from scheduling.visit_plan.errands import Errand, errands
from tests.scheduling.story import Story, may, unit

PLACE = unit("4a")


def trap(not_before: int, best: int, by: int | None, cause: Cause = Cause.TRAP_FULL) -> Check:
    last = may(by) if by is not None else None
    return Check(PLACE, CheckKind.TRAP, may(not_before), may(best), last, Why(cause))


def rest(first: int, last: int) -> Check:
    why = Why(Cause.MATURING_AND_MATING)
    return Check(PLACE, CheckKind.REST, may(first), None, may(last), why)


def the_errand(*checks: Check, drives: Drives | None = None) -> Errand:
    calendar = Calendar({PLACE: UnitState(PLACE)}, {PLACE: checks})
    (found,) = errands(calendar, drives or Drives(may(1)))
    return found


def days_of(*checks: Check, drives: Drives | None = None) -> list[int]:
    return [day.day for day in the_errand(*checks, drives=drives).days]


def test_every_open_day_of_the_window_serves() -> None:
    assert days_of(trap(4, 6, 8)) == [4, 5, 6, 7, 8]
    assert the_errand(trap(4, 6, 8)).must


def test_a_window_that_has_begun_starts_today() -> None:
    assert days_of(trap(4, 6, 8), drives=Drives(may(7))) == [7, 8]


def test_late_work_is_asked_for_today() -> None:
    late = the_errand(trap(4, 6, 8), drives=Drives(may(20)))
    assert late.days == (may(20),)
    assert late.must


def test_a_check_that_may_be_done_after_the_plan_can_wait() -> None:
    waiting = the_errand(trap(12, 13, 16))
    assert [day.day for day in waiting.days] == [12, 13, 14]
    assert not waiting.must
    assert not the_errand(trap(4, 6, None)).must


def test_days_on_which_nobody_goes_or_the_yard_is_unfit_do_not_serve() -> None:
    away = frozenset({may(5)})
    unfit = {"river": frozenset({may(6)}), "hill": frozenset({may(7)})}
    assert days_of(trap(4, 6, 8), drives=Drives(may(1), away=away, unfit=unfit)) == [4, 7, 8]


def test_a_window_without_a_day_left_is_named_as_unserved() -> None:
    drives = Drives(may(1), away=frozenset({may(4), may(5)}))
    asked = trap(4, 4, 5)
    plan = plan_visits([the_errand(asked, drives=drives)], drives)
    assert plan.unserved == (asked,)
    assert plan.visits == ()


def test_a_unit_in_rest_is_not_opened() -> None:
    assert days_of(trap(4, 4, 9), rest(6, 20)) == [4, 5]
    assert days_of(trap(4, 9, 9), rest(2, 6)) == [7, 8, 9]


def test_of_a_window_cut_in_two_by_a_rest_the_part_nearest_the_best_date_stays() -> None:
    assert days_of(trap(2, 3, 9), rest(5, 7)) == [2, 3, 4]
    assert days_of(trap(2, 8, 9), rest(5, 7)) == [8, 9]


def test_a_window_wholly_in_a_rest_moves_to_the_first_open_day_after_it() -> None:
    drives = Drives(may(1), away=frozenset({may(11)}))
    moved = the_errand(trap(4, 6, 8), rest(3, 10), drives=drives)
    assert [day.day for day in moved.days] == [12]
    assert moved.must


def test_late_work_at_a_unit_in_rest_waits_until_the_rest_is_over() -> None:
    assert days_of(trap(4, 6, 8), rest(15, 22), drives=Drives(may(20))) == [23]
    beyond = the_errand(trap(4, 6, 8), rest(15, 40), drives=Drives(may(20)))
    assert (beyond.days, beyond.must) == ((), False)


@pytest.mark.parametrize("cause", [Cause.FOOD_LOW, Cause.ROBBED])
def test_hunger_and_robbing_are_seen_to_under_the_lid_even_in_a_rest(cause: Cause) -> None:
    assert days_of(trap(4, 6, 8, cause), rest(3, 10)) == [4, 5, 6, 7, 8]


def test_what_is_only_foreseen_is_not_asked_for() -> None:
    placed = Story().on(1, EntryKind.CELL_PLACED, CellAge(days_since_graft=10))
    foreseen = {check.kind for check in placed.checks() if check.follows is not None}
    asked = {each.check.kind for each in errands(placed.calendar(), Drives(may(1), days=60))}
    assert foreseen
    assert not foreseen & asked
    assert CheckKind.EMERGENCE in asked


def test_what_is_over_is_not_asked_for() -> None:
    placed = Story().on(1, EntryKind.CELL_PLACED, CellAge(days_since_graft=10))
    last = placed.check(CheckKind.EMERGENCE).by
    assert last is not None
    after = errands(placed.calendar(), Drives(days_after(last, 1)))
    assert CheckKind.EMERGENCE not in {each.check.kind for each in after}


def test_worth_is_highest_on_the_best_date_and_half_at_the_ends_of_the_window() -> None:
    assert the_errand(trap(2, 4, 8)).per_mille == (500, 750, 1000, 875, 750, 625, 500)


def test_work_that_stays_open_keeps_its_worth_from_its_best_date_on() -> None:
    assert the_errand(trap(12, 13, None)).per_mille == (500, 1000, 1000)


def test_late_work_has_its_full_worth() -> None:
    assert the_errand(trap(4, 6, 8), drives=Drives(may(20))).per_mille == (1000,)


def test_another_measure_of_worth_decides_instead() -> None:
    """Chances that rise through the window move the visit to its end."""
    calendar = Calendar({PLACE: UnitState(PLACE)}, {PLACE: (trap(2, 4, 8),)})

    def rising(_check: Check, day: date) -> int:
        return 100 * day.day

    plan = plan_visits(errands(calendar, Drives(may(1)), rising), Drives(may(1)))
    assert [visit.day for visit in plan.visits] == [may(8)]


def test_late_work_stands_first_in_its_visit() -> None:
    """Both today; the earlier unit is on time, the later one is late."""
    on_time = Check(
        unit("1a"), CheckKind.LAYING, may(20), may(20), may(20), Why(Cause.EGGS_EXPECTED)
    )
    late = trap(4, 6, 8)
    calendar = Calendar({}, {on_time.place: (on_time,), PLACE: (late,)})
    drives = Drives(may(20))
    (visit,) = plan_visits(errands(calendar, drives), drives).visits
    assert visit.checks == (late, on_time)


@pytest.mark.parametrize(
    ("days", "worth"),
    [([3, 2], [1, 1]), ([2, 2], [1, 1]), ([2], [1, 1]), ([2, 3, 4], [5, 3, 4])],
)
def test_an_errand_has_days_in_order_and_one_peak(days: list[int], worth: list[int]) -> None:
    with pytest.raises(ValueError, match=r"worth|order"):
        Errand(trap(2, 3, 4), tuple(map(may, days)), tuple(worth))


@pytest.mark.parametrize(("days", "limit"), [(0, None), (14, 0)])
def test_a_plan_covers_a_day_and_a_day_has_room_for_a_yard(days: int, limit: int | None) -> None:
    with pytest.raises(ValueError, match="at least one"):
        Drives(may(1), days=days, yards_a_day=limit)
