"""A caged mated queen: let out after 3 to 5 days and no longer.

Read: breeder's introduction sheet ("caged 3 to 5 days and no longer"); "A very special delivery",
https://nycgardening.blogspot.com/2013/06/a-very-special-delivery.html (look on day 3). Eggs are
looked for 7 to 10 days after her release: from memory.
"""

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause
from scheduling.entry_kinds import EntryKind
from tests.scheduling.story import Story, may


def caged() -> Story:
    return Story().on(1, EntryKind.CAGED_QUEEN_PLACED)


def test_she_is_looked_for_after_three_days() -> None:
    assert caged().days(CheckKind.RELEASE) == (4, 4, 6)
    assert caged().rests() == [(2, 3)]


def test_eggs_are_only_foreseen_while_she_is_caged() -> None:
    check = caged().check(CheckKind.LAYING)
    assert check.follows is CheckKind.RELEASE
    assert caged().days(CheckKind.LAYING) == (11, 11, 14)


def test_still_caged_means_let_her_out_tomorrow() -> None:
    story = caged().on(4, EntryKind.STILL_CAGED)
    assert story.days(CheckKind.RELEASE) == (5, 5, 6)
    assert story.check(CheckKind.RELEASE).why.cause is Cause.STILL_CAGED


def test_once_out_she_is_left_alone_for_a_week() -> None:
    story = caged().on(5, EntryKind.RELEASED)
    assert story.rests() == [(6, 11)]
    assert story.days(CheckKind.LAYING) == (12, 12, 15)
    assert story.check(CheckKind.LAYING).follows is None


def test_a_queen_found_dead_in_her_cage_is_replaced() -> None:
    story = caged().on(4, EntryKind.QUEEN_DEAD)
    assert story.kinds() == {CheckKind.RECELL, CheckKind.FEED}


def test_bad_weather_does_not_keep_a_mated_queen_from_laying() -> None:
    state = caged().on(4, EntryKind.RELEASED)
    assert state.check(CheckKind.LAYING).why.cause is Cause.EGGS_EXPECTED


def test_a_later_look_for_eggs_tells_that_she_was_let_out() -> None:
    story = caged().on(12, EntryKind.NO_EGGS)
    assert CheckKind.RELEASE not in story.kinds()
    assert story.days(CheckKind.LAYING) == (17, 19, 19)
    assert story.days(CheckKind.GIVE_UP) == (19, 19, 25)


def test_a_mated_queen_without_eggs_is_given_up_in_the_third_week() -> None:
    story = caged().on(4, EntryKind.RELEASED).on(11, EntryKind.NO_EGGS)
    assert story.days(CheckKind.LAYING) == (16, 18, 18)
    assert story.days(CheckKind.GIVE_UP) == (18, 18, 25)
    assert story.check(CheckKind.GIVE_UP).why.seen == may(11)
