"""A rule that is asked twice of one unit is worked out once, and never mistakes one for another."""

from scheduling.checks.laying import laying_look
from scheduling.checks.remembered import remembered
from scheduling.entry_kinds import EntryKind
from scheduling.units import UnitState
from tests.scheduling.story import Story, may, unit


def test_the_same_unit_is_worked_out_once() -> None:
    asked: list[UnitState] = []

    def times_asked(state: UnitState) -> int:
        asked.append(state)
        return len(asked)

    boxes = remembered(times_asked)
    first, second = UnitState(unit("4a")), UnitState(unit("4b"))
    assert [boxes(first), boxes(first), boxes(second), boxes(first)] == [1, 1, 2, 3]
    assert asked == [first, second, first]


def test_an_answer_of_none_is_remembered_too() -> None:
    asked: list[UnitState] = []
    silent = remembered(asked.append)
    state = UnitState(unit())
    assert silent(state) is silent(state) is None
    assert len(asked) == 1


def test_a_unit_that_looks_the_same_but_is_not_is_asked_anew() -> None:
    asked: list[UnitState] = []
    silent = remembered(asked.append)
    silent(UnitState(unit()))
    silent(UnitState(unit()))
    assert len(asked) == 2


def test_two_units_asked_in_turn_keep_their_own_looks() -> None:
    early = Story().on(1, EntryKind.CELL_PLACED).state()
    late = Story().on(9, EntryKind.CELL_PLACED).state()
    looks = [laying_look(state) for state in (early, late, early, late)]
    best = [look.window.best for look in looks if look is not None]
    assert best == [may(15), may(23), may(15), may(23)]
