"""What a look says of the queen, and how it moves the day she emerged."""

import pytest

from scheduling.entry_kinds import EntryKind
from scheduling.units.state import Stage
from scheduling.values import Brood, Pattern
from tests.scheduling.story import Story, may


def ripe_cell() -> Story:
    """A ten-day cell put in on the first: she should be out on the third."""
    return Story().on(1, EntryKind.CELL_PLACED)


@pytest.mark.parametrize(
    ("looked", "emerged"),
    [
        (2, 2),  # out early: old larva or a hot summer
        (3, 3),
        (4, 3),  # an open cell was opened that day or before it; her own day stands
        (5, 3),
    ],
)
def test_an_open_cell_says_no_more_than_by_when(looked: int, emerged: int) -> None:
    state = ripe_cell().on(looked, EntryKind.EMERGED).state()
    assert state.emergence_due == may(emerged)
    assert state.stage is Stage.VIRGIN
    assert state.emergence_seen


def test_a_cell_seen_sealed_opens_a_day_later_at_the_earliest() -> None:
    story = ripe_cell().on(4, EntryKind.NOT_EMERGED)
    assert story.state().emergence_due == may(5)
    assert story.state().stage is Stage.CELL
    assert story.on(6, EntryKind.EMERGED).state().emergence_due == may(5)


def test_looking_too_early_does_not_move_her_day() -> None:
    assert ripe_cell().on(2, EntryKind.NOT_EMERGED).state().emergence_due == may(3)


def test_a_cell_sealed_long_past_its_time_is_bad() -> None:
    """Even in a cool nest she is out 13 days after the graft, here on the fourth."""
    assert ripe_cell().on(5, EntryKind.NOT_EMERGED).state().stage is Stage.CELL
    state = ripe_cell().on(6, EntryKind.NOT_EMERGED).state()
    assert state.stage is Stage.WAITING
    assert (state.lost_by, state.lost_on) == (EntryKind.NOT_EMERGED, may(6))


def test_seeing_the_virgin_early_tells_that_she_is_out() -> None:
    state = ripe_cell().on(2, EntryKind.VIRGIN_SEEN).state()
    assert state.stage is Stage.VIRGIN
    assert (state.emergence_due, state.virgin_seen_on) == (may(2), may(2))


def test_a_virgin_in_a_unit_of_unknown_history_is_at_least_as_old_as_this_look() -> None:
    state = Story().on(9, EntryKind.VIRGIN_SEEN).state()
    assert (state.stage, state.emergence_due) == (Stage.VIRGIN, may(9))


def test_a_queen_found_where_none_was_thought_to_be() -> None:
    story = Story().on(1, EntryKind.MADE_UP).on(9, EntryKind.QUEEN_SEEN)
    assert story.state().stage is Stage.VIRGIN
    assert story.state().emergence_due is None


def test_the_first_eggs_stand_and_the_latest_are_kept_beside_them() -> None:
    state = ripe_cell().on(15, EntryKind.EGGS).on(19, EntryKind.EGGS).state()
    assert state.stage is Stage.LAYING
    assert (state.eggs_on, state.eggs_last_on) == (may(15), may(19))
    assert state.young_brood_on == may(19)


def test_good_sealed_brood_proves_her() -> None:
    story = ripe_cell().on(15, EntryKind.EGGS).on(24, EntryKind.SEALED_BROOD, Brood(Pattern.GOOD))
    assert story.state().stage is Stage.PROVEN
    assert story.on(26, EntryKind.EGGS).state().stage is Stage.PROVEN


def test_sealed_brood_without_a_word_on_the_pattern_is_good() -> None:
    assert ripe_cell().on(24, EntryKind.SEALED_BROOD).state().pattern is Pattern.GOOD


def test_sealed_brood_tells_since_when_she_has_laid() -> None:
    """Worker brood is sealed at nine days; she cannot have begun later than that."""
    assert ripe_cell().on(24, EntryKind.SEALED_BROOD).state().eggs_on == may(15)


def test_spotty_brood_does_not_prove_her() -> None:
    story = ripe_cell().on(24, EntryKind.SEALED_BROOD, Brood(Pattern.SPOTTY))
    assert story.state().stage is Stage.LAYING


def test_an_empty_look_after_her_day_tells_that_the_cell_is_open() -> None:
    assert ripe_cell().on(15, EntryKind.NO_EGGS).state().stage is Stage.VIRGIN


def test_a_caged_queen_let_out() -> None:
    story = Story().on(1, EntryKind.CAGED_QUEEN_PLACED)
    assert story.state().stage is Stage.CAGED
    assert story.on(4, EntryKind.STILL_CAGED).state().still_caged_on == may(4)
    state = story.on(5, EntryKind.RELEASED).state()
    assert (state.stage, state.released_on) == (Stage.VIRGIN, may(5))
    assert state.mated_when_placed


def test_the_last_day_the_unit_was_opened() -> None:
    story = ripe_cell().on(4, EntryKind.QUEEN_NOT_SEEN).on(6, EntryKind.FED)
    assert story.state().looked_on == may(4)
