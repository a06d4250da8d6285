"""How a round begins: the cell's age, the virgin's, and what a new round forgets."""

import pytest

from scheduling.entry_kinds import EntryKind
from scheduling.units.state import Stage
from scheduling.values import CellAge, MakeUp, VirginAge
from tests.scheduling.story import Story, may


@pytest.mark.parametrize(
    ("age", "grafted", "emerges"),
    [
        (None, 1, 13),  # a ripe ten-day cell where no age is told
        (CellAge(days_since_graft=10), 1, 13),
        (CellAge(days_since_graft=3), 8, 20),
        (CellAge(days_since_egg=14), 1, 13),  # grafted at four days from the egg
        (CellAge(days_since_egg=15), 0, 12),
    ],
)
def test_a_cell_placed_on_the_11th(age: CellAge | None, grafted: int, emerges: int) -> None:
    state = Story().on(11, EntryKind.CELL_PLACED, age).state()
    assert state.stage is Stage.CELL
    assert state.grafted_on == may(grafted)
    assert state.emergence_due == may(emerges)


def test_a_cell_overdue_when_placed_can_only_open_in_the_unit() -> None:
    state = Story().on(14, EntryKind.CELL_PLACED, CellAge(days_since_graft=13)).state()
    assert state.emergence_due == may(14)


def test_a_virgin_is_as_old_as_told_or_newly_emerged() -> None:
    assert Story().on(5, EntryKind.VIRGIN_PLACED).state().emergence_due == may(5)
    aged = Story().on(5, EntryKind.VIRGIN_PLACED, VirginAge(3)).state()
    assert aged.emergence_due == may(2)
    assert aged.stage is Stage.VIRGIN


def test_a_unit_left_to_raise_its_own_has_a_queen_out_after_about_12_days() -> None:
    state = Story().on(1, EntryKind.RAISING_OWN).state()
    assert state.stage is Stage.RAISING_OWN
    assert state.emergence_due == may(13)


def test_a_new_round_forgets_the_old_queen_and_keeps_the_colony() -> None:
    story = Story().on(1, EntryKind.MADE_UP).on(1, EntryKind.TRAP_SET).on(2, EntryKind.CELL_PLACED)
    story.on(18, EntryKind.EGGS).on(20, EntryKind.FED).on(34, EntryKind.QUEEN_TAKEN)
    state = story.on(36, EntryKind.CELL_PLACED).state()
    assert state.round == 2
    assert state.stage is Stage.CELL
    assert (state.eggs_on, state.lost_by, state.lost_on) == (None, None, None)
    assert (state.made_up_on, state.trap_on, state.fed_on) == (may(1), may(1), may(20))
    assert state.young_brood_on == may(34)


def test_a_unit_that_ended_begins_anew_when_it_is_stocked() -> None:
    story = Story().on(1, EntryKind.MADE_UP).on(2, EntryKind.CELL_PLACED).on(2, EntryKind.FED)
    state = story.on(9, EntryKind.ABSCONDED).on(12, EntryKind.MADE_UP).state()
    assert state.stage is Stage.WAITING
    assert (state.made_up_on, state.fed_on, state.lost_on) == (may(12), None, None)
    assert story.on(13, EntryKind.CELL_PLACED).state().round == 2


def test_a_cell_in_a_unit_that_ended_takes_nothing_over() -> None:
    story = Story().on(1, EntryKind.MADE_UP).on(2, EntryKind.FED).on(3, EntryKind.DEAD)
    state = story.on(9, EntryKind.CELL_PLACED).state()
    assert (state.made_up_on, state.fed_on) == (None, None)
    assert state.young_brood_on == may(9)


def test_restocking_a_unit_with_a_queen_leaves_her_in_her_stage() -> None:
    story = Story().on(1, EntryKind.CELL_PLACED).on(4, EntryKind.EMERGED).on(5, EntryKind.MADE_UP)
    assert story.state().stage is Stage.VIRGIN


@pytest.mark.parametrize(
    ("stocked", "laid"),
    [
        (None, 20),
        (MakeUp(brood_frames=1), 20),
        (MakeUp(brood_frames=1, sealed_share=0.5), 20),
        (MakeUp(brood_frames=1, sealed_share=1), 11),  # worker brood is sealed nine days old
        (MakeUp(brood_frames=0), 11),
    ],
)
def test_how_young_the_brood_may_be_at_make_up(stocked: MakeUp | None, laid: int) -> None:
    assert Story().on(20, EntryKind.MADE_UP, stocked).state().young_brood_on == may(laid)
