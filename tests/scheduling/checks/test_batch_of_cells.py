"""A batch of grafted cells.

Sealed on day 6, placed on day 10 (Cushman, "Grafting timetable",
http://dave-cushman.net/bee/graftingtimesheet.html); from day 6 to 9 the pupa hangs by a thread
("Elevage express", https://mathieua.fr/elevage-express.html).
"""

import pytest

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, last_useful
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place
from scheduling.values import CellAge, Graft, PutOff
from tests.scheduling.story import YARD, Story, may, unit

BATCH = Place(YARD, batch="2027-05-01")


def batch() -> Story:
    return Story(BATCH).on(1, EntryKind.GRAFTED, Graft(cells=24))


def test_no_jolts_while_the_pupae_hang_loose() -> None:
    assert batch().rests() == [(7, 9)]
    assert batch().check(CheckKind.REST).why.cause is Cause.PUPAE_HANG_LOOSE


def test_ripe_after_ten_days() -> None:
    assert batch().days(CheckKind.CELLS_RIPE) == (10, 11, 12)


def test_placed_cells_of_that_graft_end_the_batch() -> None:
    from_it = batch().on(11, EntryKind.CELL_PLACED, CellAge(10), at=unit("4a"))
    assert from_it.checks(BATCH) == ()


@pytest.mark.parametrize("placed", [10, 11, 12])
def test_ripe_cells_whose_age_was_not_told_end_it_too(placed: int) -> None:
    assert batch().on(placed, EntryKind.CELL_PLACED, at=unit("4a")).checks(BATCH) == ()


def test_cells_without_an_age_before_it_is_ripe_are_not_from_it() -> None:
    story = batch().on(8, EntryKind.CELL_PLACED, at=unit("4a"))
    assert story.days(CheckKind.CELLS_RIPE) == (10, 11, 12)


def test_a_graft_told_of_the_yard_is_a_batch_too() -> None:
    story = Story(Place(YARD)).on(1, EntryKind.GRAFTED)
    assert story.days(CheckKind.CELLS_RIPE) == (10, 11, 12)


def test_cells_of_another_graft_do_not() -> None:
    story = batch().on(11, EntryKind.CELL_PLACED, CellAge(9), at=unit("4a"))
    assert story.days(CheckKind.CELLS_RIPE) == (10, 11, 12)


def test_a_batch_is_over_when_its_last_queen_is_out() -> None:
    assert last_useful(batch().check(CheckKind.CELLS_RIPE)) == may(14)


def test_a_batch_can_be_put_off() -> None:
    story = batch().on(10, EntryKind.PUT_OFF, PutOff(may(12), CheckKind.CELLS_RIPE))
    assert story.days(CheckKind.CELLS_RIPE) == (12, 12, 12)
    assert last_useful(story.check(CheckKind.CELLS_RIPE)) == may(14)
