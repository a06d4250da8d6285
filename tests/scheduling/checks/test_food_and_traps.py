"""Food and beetle traps, and how they keep out of the rests.

Every 7 to 10 days in beetle season ("Managing small hive beetle infestations in Australian
beehives", http://thegrandoleapiary.com/managing-small-hive-beetle-infestations-in-australian-beehives/);
a trap at most every 7 days, because egg (2-3 days) and feeding larva (5-8 days) together take that
(USDA-ARS, https://ars.usda.gov/southeast-area/baton-rouge-la/honeybeelab/docs/small-hive-beetles).
How much food is low: common practice, no source.
"""

import pytest

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause
from scheduling.entry_kinds import EntryKind
from scheduling.values import MakeUp, PutOff, Stores, TrapCount
from tests.scheduling.story import Story, may


def laying() -> Story:
    """A unit that needs no rest."""
    return Story().on(1, EntryKind.EGGS)


def test_the_trap_goes_in_on_the_day_of_make_up() -> None:
    story = Story().on(1, EntryKind.MADE_UP)
    assert story.days(CheckKind.TRAP) == (1, 1, 4)
    assert story.check(CheckKind.TRAP).why.seen is None


def test_a_trap_is_emptied_every_week() -> None:
    story = Story().on(1, EntryKind.MADE_UP).on(1, EntryKind.TRAP_SET)
    assert story.days(CheckKind.TRAP) == (4, 8, 11)
    assert story.on(8, EntryKind.TRAP_SERVICED, TrapCount(9)).days(CheckKind.TRAP) == (11, 15, 18)


def test_after_many_beetles_it_is_emptied_before_their_eggs_hatch() -> None:
    """No threshold is published (W. M. Hood, Clemson,
    http://www.clemson.edu/extension/beekeepers/publications/small_hive_bettle_ipm.html): ten is
    our own line; eggs take 2 to 3 days (USDA-ARS, above).
    """
    story = laying().on(8, EntryKind.TRAP_SERVICED, TrapCount(10))
    assert story.days(CheckKind.TRAP) == (10, 11, 12)
    why = story.check(CheckKind.TRAP).why
    assert (why.cause, why.beetles, why.seen) == (Cause.MANY_BEETLES, 10, may(8))
    calm = story.on(11, EntryKind.TRAP_SERVICED, TrapCount(2))
    assert calm.days(CheckKind.TRAP) == (14, 18, 21)


@pytest.mark.parametrize(
    ("before", "then", "days"),
    [(2, 6, (17, 18, 20)), (4, 6, (16, 20, 23)), (6, 2, (16, 20, 23)), (2, 12, (15, 16, 17))],
    ids=["risen", "hardly risen", "fallen", "many"],
)
def test_a_count_that_rises_brings_the_next_service_forward(
    before: int, then: int, days: tuple[int, int, int]
) -> None:
    """By how much and how soon is our own line, as above."""
    story = laying().on(6, EntryKind.TRAP_SERVICED, TrapCount(before))
    story.on(13, EntryKind.TRAP_SERVICED, TrapCount(then))
    assert story.days(CheckKind.TRAP) == days


def test_a_first_count_and_one_not_told_have_not_risen() -> None:
    first = laying().on(6, EntryKind.TRAP_SERVICED, TrapCount(6))
    assert first.check(CheckKind.TRAP).why.cause is Cause.TRAP_FULL
    uncounted = (
        laying().on(6, EntryKind.TRAP_SERVICED).on(13, EntryKind.TRAP_SERVICED, TrapCount(6))
    )
    assert uncounted.check(CheckKind.TRAP).why.cause is Cause.TRAP_FULL


def test_where_no_trap_and_no_make_up_was_told_none_is_asked_for() -> None:
    assert CheckKind.TRAP not in Story().on(1, EntryKind.CELL_PLACED).kinds()


def test_food_is_looked_at_a_week_after_it_was_given() -> None:
    assert laying().on(3, EntryKind.FED).days(CheckKind.FEED) == (6, 10, 13)


@pytest.mark.parametrize(
    ("frames", "window", "cause"),
    [
        (0, (6, 6, 7), Cause.FOOD_LOW),
        (0.25, (6, 6, 7), Cause.FOOD_LOW),
        (0.5, (6, 6, 6), Cause.FOOD_RUNS_LOW),
        (0.75, (6, 13, 14), Cause.FOOD_RUNS_LOW),
        (1, (12, 19, 26), Cause.FOOD_LOOK),
        (2, (12, 19, 26), Cause.FOOD_LOOK),
    ],
)
def test_the_food_seen_on_the_fifth_sets_the_next_look(
    frames: float, window: tuple[int, int, int], cause: Cause
) -> None:
    story = laying().on(5, EntryKind.STORES, Stores(frames))
    assert story.days(CheckKind.FEED) == window
    assert story.check(CheckKind.FEED).why.cause is cause


def test_fed_on_the_day_it_was_low_it_is_low_no_more() -> None:
    story = laying().on(5, EntryKind.STORES, Stores(0.25)).on(5, EntryKind.FED)
    assert story.days(CheckKind.FEED) == (8, 12, 15)


def test_stocked_with_little_food_it_is_fed_the_next_day() -> None:
    story = Story().on(1, EntryKind.MADE_UP, MakeUp(food_frames=0.25))
    assert story.check(CheckKind.FEED).why.cause is Cause.FOOD_LOW


def test_a_robbed_unit_is_looked_at_the_next_day() -> None:
    story = laying().on(3, EntryKind.FED).on(6, EntryKind.ROBBED)
    assert story.days(CheckKind.FEED) == (7, 7, 8)
    assert story.check(CheckKind.FEED).why.cause is Cause.ROBBED
    assert story.on(7, EntryKind.FED).check(CheckKind.FEED).why.cause is Cause.FOOD_LOOK


def ripe_cell() -> Story:
    """Looked at from the third to the fifth, at rest from the sixth to the twelfth."""
    story = Story().on(1, EntryKind.MADE_UP).on(1, EntryKind.TRAP_SET)
    return story.on(1, EntryKind.CELL_PLACED)


def test_before_the_rest_food_and_trap_join_the_emergence_check() -> None:
    assert ripe_cell().check(CheckKind.FEED).best == may(4)
    assert ripe_cell().check(CheckKind.TRAP).best == may(4)


def test_done_too_lately_they_wait_for_the_look_for_eggs() -> None:
    story = ripe_cell().on(3, EntryKind.FED).on(3, EntryKind.TRAP_SERVICED)
    assert story.check(CheckKind.FEED).best == may(15)
    assert story.check(CheckKind.TRAP).best == may(15)


def test_once_the_unit_was_closed_they_wait_too() -> None:
    story = ripe_cell().on(4, EntryKind.EMERGED)
    assert story.check(CheckKind.FEED).best == may(15)


def test_without_a_look_near_it_is_the_last_day_before_the_rest() -> None:
    story = Story().on(1, EntryKind.RAISING_OWN).on(5, EntryKind.FED)
    assert story.rests() == [(11, 21)]
    assert story.check(CheckKind.FEED).best == may(10)


def test_a_look_three_days_off_is_not_waited_for() -> None:
    story = Story().on(1, EntryKind.RAISING_OWN).on(9, EntryKind.FED)
    assert story.check(CheckKind.LAYING).best == may(25)
    assert story.check(CheckKind.FEED).best == may(22)


def test_low_food_does_not_wait_for_the_end_of_a_rest() -> None:
    story = ripe_cell().on(5, EntryKind.EMERGED).on(7, EntryKind.STORES, Stores(0.25))
    assert story.check(CheckKind.FEED).best == may(8)
    assert (6, 12) in story.rests()


def test_food_put_off_into_a_rest_comes_after_it() -> None:
    story = ripe_cell().on(4, EntryKind.EMERGED)
    story.on(4, EntryKind.PUT_OFF, PutOff(may(9), CheckKind.FEED))
    assert story.check(CheckKind.FEED).best == may(15)


def test_a_put_off_is_over_once_the_thing_was_done() -> None:
    story = laying().on(3, EntryKind.PUT_OFF, PutOff(may(14), CheckKind.FEED))
    assert story.check(CheckKind.FEED).best == may(14)
    assert story.on(4, EntryKind.FED).check(CheckKind.FEED).best == may(11)
