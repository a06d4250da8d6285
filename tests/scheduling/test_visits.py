"""What a morning asks for, and who goes."""

from datetime import date

from scheduling.check_kinds import CheckKind
from scheduling.checks.calendar import Calendar
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place
from scheduling.values import PutOff, Stores
from scheduling.visits import DayPlan, coming, due_on, failing, ready_queens, taken_on
from tests.scheduling.story import Story, may, unit

A, B, C = unit("4a"), unit("4b"), unit("12")
FAR = unit("4a", "hill")


def season() -> Calendar:
    """Four units in two yards; invented."""
    story = Story()
    for place in (A, B, C, FAR):
        story.on(1, EntryKind.CELL_PLACED, at=place)
    story.on(4, EntryKind.EMERGED, at=A).on(4, EntryKind.CELL_FAILED, at=B)
    return story.calendar()


def told(plan: DayPlan) -> list[tuple[str, CheckKind, bool]]:
    return [(str(item.check.place), item.check.kind, item.overdue) for item in plan.due]


def test_what_is_due_stands_in_the_order_of_the_yards() -> None:
    assert told(due_on(season(), may(5))) == [
        ("hill 4a", CheckKind.EMERGENCE, False),
        ("hill 4a", CheckKind.FEED, False),
        ("river 4b", CheckKind.RECELL, False),
        ("river 12", CheckKind.EMERGENCE, False),
        ("river 12", CheckKind.FEED, False),
    ]


def test_what_is_overdue_comes_first() -> None:
    plan = due_on(season(), may(15))
    assert [item for item in told(plan) if item[0].startswith("river")] == [
        ("river 4b", CheckKind.RECELL, True),
        ("river 4b", CheckKind.FEED, True),
        ("river 12", CheckKind.FEED, True),
        ("river 4a", CheckKind.LAYING, False),
        ("river 4a", CheckKind.FEED, False),
        ("river 12", CheckKind.LAYING, False),
    ]


def test_rests_in_force_say_their_last_day() -> None:
    rests = {rest.place: rest.by for rest in due_on(season(), may(6)).rests}
    assert rests[FAR] == may(12)


def test_a_unit_nobody_looked_into_is_left_alone_once_its_queen_may_fly() -> None:
    plan = due_on(season(), may(6))
    assert "hill" not in plan.yards


def test_food_and_trap_of_a_resting_unit_wait() -> None:
    story = Story().on(1, EntryKind.CELL_PLACED).on(4, EntryKind.EMERGED)
    assert due_on(story.calendar(), may(9)).due == ()
    low = story.on(8, EntryKind.STORES, Stores(0))
    (item,) = due_on(low.calendar(), may(9)).due
    assert item.check.kind is CheckKind.FEED


def test_what_is_only_foreseen_is_not_due() -> None:
    kinds = {item.check.kind for item in due_on(season(), may(60)).due}
    assert CheckKind.SEALED_BROOD not in kinds
    assert CheckKind.LAYING in kinds


def test_a_plan_names_its_yards() -> None:
    assert due_on(season(), may(5)).yards == ("hill", "river")


def test_nothing_is_due_before_the_first_date() -> None:
    plan = due_on(season(), may(2))
    assert plan.due == ()
    assert [str(rest.place) for rest in plan.rests] == ["hill 4a", "river 12"]


def test_the_days_to_come() -> None:
    found = coming(season(), may(14), may(24))
    kinds = [(str(check.place), check.kind) for check in found if check.place == FAR]
    assert kinds == [
        ("hill 4a", CheckKind.LAYING),
        ("hill 4a", CheckKind.SEALED_BROOD),
        ("hill 4a", CheckKind.GIVE_UP),
    ]
    assert [check.best for check in found] == sorted(check.best for check in found if check.best)


def laying_units() -> Calendar:
    story = Story()
    for place, eggs in ((A, 16), (B, 14), (C, 15)):
        story.on(1, EntryKind.CELL_PLACED, at=place).on(eggs, EntryKind.EGGS, at=place)
    for place in (A, B):
        story.on(25, EntryKind.SEALED_BROOD, at=place)
    return story.calendar()


def test_queens_ready_to_take_oldest_first() -> None:
    """Proven and two weeks in lay; the third has not shown her sealed brood."""
    ready = ready_queens(laying_units(), may(31))
    assert [(queen.place, queen.days_laying) for queen in ready] == [(B, 17), (A, 15)]
    assert ready_queens(laying_units(), may(27)) == ()


def test_a_ready_queen_is_no_work_for_the_morning() -> None:
    plan = due_on(laying_units(), may(31))
    assert {queen.place for queen in ready_queens(laying_units(), may(31))} == {A, B}
    assert CheckKind.TAKE not in {item.check.kind for item in plan.due}


def test_units_that_go_wrong() -> None:
    story = Story().on(1, EntryKind.CELL_PLACED).on(15, EntryKind.NO_EGGS)
    story.on(1, EntryKind.CELL_PLACED, at=B).on(4, EntryKind.CELL_FAILED, at=B)
    story.on(1, EntryKind.CELL_PLACED, at=C)
    wrong = {check.place: check.kind for check in failing(story.calendar(), may(8))}
    assert wrong == {B: CheckKind.RECELL}
    assert {check.place for check in failing(story.calendar(), may(24))} == {A, B}


def test_a_ripe_batch_is_due_until_it_is_over() -> None:
    batch = Place("river", batch="2027-05-01")
    story = Story(batch).on(1, EntryKind.GRAFTED)
    due = [day for day in range(1, 20) if due_on(story.calendar(), may(day)).due]
    assert due == [11, 12, 13, 14]
    assert due_on(story.calendar(), may(13)).due[0].overdue
    assert due_on(story.calendar(), may(8)).rests[0].place == batch


def test_put_off_for_a_whole_yard() -> None:
    story = Story().on(1, EntryKind.CELL_PLACED).on(1, EntryKind.CELL_PLACED, at=FAR)
    story.on(15, EntryKind.PUT_OFF, PutOff(may(18)), at=Place("river"))
    kinds = {str(check.place) for check in coming(story.calendar(), may(15), may(15))}
    assert kinds == {"hill 4a"}


def test_who_goes_to_which_yard() -> None:
    story = Story().on(4, EntryKind.YARD_TAKEN, at=Place("river"))
    story.on(5, EntryKind.YARD_TAKEN, at=Place("hill"))
    assert taken_on(story.entries, may(4)) == {"river": "ida"}
    assert taken_on(story.entries, date(2027, 4, 1)) == {}
