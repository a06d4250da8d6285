"""How a queen is lost, and how a unit ends."""

import pytest

from scheduling.entry_kinds import EntryKind
from scheduling.units.state import Stage
from tests.scheduling.story import Story, may


@pytest.mark.parametrize("kind", [EntryKind.CELL_FAILED, EntryKind.QUEEN_DEAD])
def test_a_lost_queen_leaves_the_unit_waiting(kind: EntryKind) -> None:
    state = Story().on(1, EntryKind.CELL_PLACED).on(4, kind).state()
    assert state.stage is Stage.WAITING
    assert (state.lost_by, state.lost_on, state.emergence_due) == (kind, may(4), None)


def test_the_first_day_of_a_loss_stands() -> None:
    story = Story().on(1, EntryKind.CELL_PLACED).on(4, EntryKind.CELL_FAILED)
    assert story.on(8, EntryKind.QUEEN_DEAD).state().lost_on == may(4)


def test_a_taken_queen_laid_to_her_last_day() -> None:
    story = Story().on(1, EntryKind.CELL_PLACED).on(15, EntryKind.EGGS)
    assert story.on(30, EntryKind.QUEEN_TAKEN).state().young_brood_on == may(30)


def test_a_dead_virgin_left_no_brood() -> None:
    story = Story().on(1, EntryKind.MADE_UP).on(2, EntryKind.CELL_PLACED)
    assert story.on(12, EntryKind.QUEEN_DEAD).state().young_brood_on == may(1)


@pytest.mark.parametrize(
    ("kind", "stage"),
    [
        (EntryKind.DRONE_LAYER, Stage.DRONE_LAYER),
        (EntryKind.LAYING_WORKERS, Stage.LAYING_WORKERS),
    ],
)
def test_wrong_brood(kind: EntryKind, stage: Stage) -> None:
    state = Story().on(1, EntryKind.CELL_PLACED).on(25, kind).state()
    assert (state.stage, state.lost_on) == (stage, may(25))


def test_a_drone_layer_that_was_killed_leaves_the_unit_waiting() -> None:
    story = Story().on(1, EntryKind.CELL_PLACED).on(25, EntryKind.DRONE_LAYER)
    assert story.on(26, EntryKind.QUEEN_DEAD).state().stage is Stage.WAITING


@pytest.mark.parametrize(
    "kind", [EntryKind.DEAD, EntryKind.ABSCONDED, EntryKind.COMBINED, EntryKind.EMPTIED]
)
def test_a_unit_that_ended_has_nothing_due(kind: EntryKind) -> None:
    story = Story().on(1, EntryKind.MADE_UP).on(2, EntryKind.CELL_PLACED).on(9, kind)
    assert story.state().stage is Stage.ENDED
    assert story.checks() == ()
