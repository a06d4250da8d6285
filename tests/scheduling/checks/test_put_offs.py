"""What the keeper puts off."""

import pytest

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause
from scheduling.entry_kinds import EntryKind
from scheduling.values import PutOff
from tests.scheduling.story import Story, may


def ripe_cell() -> Story:
    return Story().on(1, EntryKind.CELL_PLACED).on(4, EntryKind.EMERGED)


def test_whatever_is_due_earlier_is_put_off_and_the_rest_stays() -> None:
    story = ripe_cell().on(14, EntryKind.PUT_OFF, PutOff(may(19)))
    assert story.days(CheckKind.LAYING) == (19, 19, 19)
    assert story.days(CheckKind.GIVE_UP) == (24, 24, 31)


def test_put_off_within_its_time_keeps_its_last_date() -> None:
    story = ripe_cell().on(14, EntryKind.PUT_OFF, PutOff(may(16), CheckKind.LAYING))
    assert story.days(CheckKind.LAYING) == (16, 16, 17)
    why = story.check(CheckKind.LAYING).why
    assert (why.cause, why.about) == (Cause.PUT_OFF, may(16))


@pytest.mark.parametrize("until", [2, 14, 15])
def test_put_off_to_no_later_than_it_was_changes_nothing(until: int) -> None:
    story = ripe_cell().on(13, EntryKind.PUT_OFF, PutOff(may(until), CheckKind.LAYING))
    assert story.checks() == ripe_cell().checks()


def test_putting_off_one_check_leaves_the_others() -> None:
    story = ripe_cell().on(14, EntryKind.PUT_OFF, PutOff(may(18), CheckKind.FEED))
    assert story.days(CheckKind.LAYING) == (13, 15, 17)
    assert story.check(CheckKind.FEED).best == may(18)


def test_the_later_word_counts() -> None:
    story = ripe_cell().on(14, EntryKind.PUT_OFF, PutOff(may(20), CheckKind.LAYING))
    story.on(14, EntryKind.PUT_OFF, PutOff(may(17), CheckKind.LAYING))
    assert story.days(CheckKind.LAYING) == (17, 17, 17)


def test_a_rest_grows_no_longer_by_a_put_off() -> None:
    story = ripe_cell().on(14, EntryKind.PUT_OFF, PutOff(may(25), CheckKind.LAYING))
    assert story.rests() == [(5, 12)]


def test_once_answered_the_next_look_keeps_its_own_date() -> None:
    story = ripe_cell().on(14, EntryKind.PUT_OFF, PutOff(may(30)))
    story.on(16, EntryKind.NO_EGGS)
    assert story.days(CheckKind.LAYING) == (21, 23, 23)


def test_a_new_round_owes_nothing_to_the_old_ones_put_offs() -> None:
    story = ripe_cell().on(5, EntryKind.PUT_OFF, PutOff(may(40)))
    story.on(6, EntryKind.QUEEN_DEAD).on(7, EntryKind.CELL_PLACED)
    assert story.days(CheckKind.EMERGENCE) == (9, 10, 11)


def test_a_queen_that_may_be_taken_can_be_put_off_and_stays_open() -> None:
    story = ripe_cell().on(15, EntryKind.EGGS).on(24, EntryKind.SEALED_BROOD)
    story.on(30, EntryKind.PUT_OFF, PutOff(may(40), CheckKind.TAKE))
    assert story.days(CheckKind.TAKE) == (40, 40, None)
