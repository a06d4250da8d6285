"""The next cell after a failure or a taking, and brood for a unit that has been long without.

A nucleus takes a cell after 12 to 24 h queenless ("How to use capped queen cells",
http://sbip.loneoakhoney.com/equipment-and-techniques/how-to-use-capped-queen-cells); two days after
a queen was removed (de Bruyn, Bee Craft 97(5):11-15, 2015). Laying workers after about two weeks
queenless (Collison, "Laying workers", http://basprings.com/laying-workers/).
"""

import pytest

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause
from scheduling.entry_kinds import EntryKind
from tests.scheduling.story import Story, may


def made_up() -> Story:
    return Story().on(1, EntryKind.MADE_UP).on(1, EntryKind.TRAP_SET)


@pytest.mark.parametrize(
    ("failure", "cause"),
    [
        (EntryKind.CELL_FAILED, Cause.CELL_WAS_BAD),
        (EntryKind.QUEEN_DEAD, Cause.QUEEN_LOST),
    ],
)
def test_after_a_failure_the_next_cell_goes_in_tomorrow(failure: EntryKind, cause: Cause) -> None:
    story = made_up().on(1, EntryKind.CELL_PLACED).on(4, failure)
    assert story.days(CheckKind.RECELL) == (4, 5, 11)
    why = story.check(CheckKind.RECELL).why
    assert (why.cause, why.seen) == (cause, may(4))
    assert why.about == may(1 + 9 + 14)


def test_the_next_cell_is_in_before_laying_workers_are_likely() -> None:
    """The last eggs were given on the first: sealed on the tenth, laying workers from the 24th."""
    story = made_up().on(1, EntryKind.CELL_PLACED).on(20, EntryKind.QUEEN_DEAD)
    assert story.days(CheckKind.RECELL) == (20, 21, 24)


def test_long_past_that_it_is_still_due_tomorrow() -> None:
    story = made_up().on(1, EntryKind.CELL_PLACED).on(28, EntryKind.QUEEN_DEAD)
    assert story.days(CheckKind.RECELL) == (28, 29, 29)


def test_after_a_queen_was_taken_the_next_cell_goes_in_on_the_second_day() -> None:
    story = made_up().on(1, EntryKind.CELL_PLACED).on(15, EntryKind.EGGS)
    story.on(24, EntryKind.SEALED_BROOD).on(30, EntryKind.QUEEN_TAKEN)
    assert story.days(CheckKind.RECELL) == (31, 32, 36)
    assert story.check(CheckKind.RECELL).why.cause is Cause.QUEEN_WAS_TAKEN
    assert CheckKind.BOOST not in story.kinds()


def test_a_unit_without_young_brood_for_two_weeks_gets_some_with_its_cell() -> None:
    story = made_up().on(1, EntryKind.CELL_PLACED).on(16, EntryKind.QUEEN_DEAD)
    assert story.days(CheckKind.BOOST) == story.days(CheckKind.RECELL)
    why = story.check(CheckKind.BOOST).why
    assert (why.cause, why.seen) == (Cause.NO_OPEN_BROOD, may(10))


@pytest.mark.parametrize(("lost", "boosted"), [(14, False), (15, True)])
def test_brood_is_given_from_the_fifteenth_day_on(lost: int, boosted: bool) -> None:
    """The last eggs were given on the first; the cell goes in on the day after the loss."""
    story = made_up().on(1, EntryKind.CELL_PLACED).on(lost, EntryKind.QUEEN_DEAD)
    assert (CheckKind.BOOST in story.kinds()) == boosted


def test_given_brood_it_needs_none() -> None:
    story = made_up().on(1, EntryKind.CELL_PLACED).on(16, EntryKind.QUEEN_DEAD)
    assert CheckKind.BOOST not in story.on(16, EntryKind.BROOD_ADDED).kinds()


def test_bees_alone_bring_no_brood() -> None:
    story = made_up().on(1, EntryKind.CELL_PLACED).on(16, EntryKind.QUEEN_DEAD)
    assert CheckKind.BOOST in story.on(16, EntryKind.BEES_ADDED).kinds()


def test_a_drone_layer_goes_and_the_unit_gets_a_cell_and_worker_brood() -> None:
    story = made_up().on(1, EntryKind.CELL_PLACED).on(15, EntryKind.EGGS)
    story.on(24, EntryKind.DRONE_LAYER)
    assert story.check(CheckKind.RECELL).why.cause is Cause.DRONE_LAYER_SEEN
    assert story.days(CheckKind.RECELL) == (24, 25, 31)
    assert CheckKind.BOOST in story.kinds()
    assert CheckKind.BOOST not in story.on(25, EntryKind.BROOD_ADDED).kinds()


def test_own_cells_are_cut_before_a_cell_is_given() -> None:
    story = made_up().on(1, EntryKind.CELL_PLACED).on(4, EntryKind.CELL_FAILED)
    story.on(8, EntryKind.OWN_CELLS)
    why = story.check(CheckKind.RECELL).why
    assert (why.cause, why.seen) == (Cause.OWN_CELLS_SEEN, may(8))


def test_own_cells_in_a_unit_that_raises_its_own_are_no_news() -> None:
    story = made_up().on(1, EntryKind.RAISING_OWN).on(5, EntryKind.OWN_CELLS)
    assert CheckKind.RECELL not in story.kinds()


def test_a_stocked_unit_waits_for_its_first_cell() -> None:
    assert made_up().days(CheckKind.RECELL) == (1, 2, 8)


def test_the_next_cell_ends_the_waiting() -> None:
    story = made_up().on(1, EntryKind.CELL_PLACED).on(4, EntryKind.CELL_FAILED)
    assert CheckKind.RECELL not in story.on(5, EntryKind.CELL_PLACED).kinds()
