"""The look for eggs, again when there were none, and the rest around it.

First eggs come 10.6 days after emergence on average (Szabo et al. 1987, J. Apic. Res. 26:73-78, as
cited in http://honeybee.drawwing.org/book/queen-egg-laying); the first look is 14 days after the
unit was set up with a ripe cell (COLOSS BEEBOOK, queen rearing 2.2.2,
http://coloss.org/beebook/I/queen-rearing/2/2/2).
"""

import pytest

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause
from scheduling.entry_kinds import EntryKind
from scheduling.values import DayWeather, Flying, VirginAge
from tests.scheduling.story import Story


def ripe_cell() -> Story:
    return Story().on(1, EntryKind.CELL_PLACED)


def test_fourteen_days_after_a_ripe_cell() -> None:
    assert ripe_cell().days(CheckKind.LAYING) == (13, 15, 17)


def test_she_is_left_alone_from_her_emergence_to_her_eggs() -> None:
    assert ripe_cell().rests() == [(2, 2), (6, 12)]
    assert ripe_cell().on(4, EntryKind.EMERGED).rests() == [(5, 12)]


def test_a_virgin_is_counted_from_her_emergence() -> None:
    story = Story().on(1, EntryKind.VIRGIN_PLACED, VirginAge(1))
    assert story.days(CheckKind.LAYING) == (10, 12, 14)
    assert story.rests() == [(2, 9)]


def test_an_older_virgin_is_still_left_alone_for_a_week() -> None:
    """Read: May Farms, "Queen rearing, part 4", mayfarmsllc.com/2017/04/23/queen-rearing-4/."""
    story = Story().on(1, EntryKind.VIRGIN_PLACED, VirginAge(8))
    assert story.days(CheckKind.LAYING) == (8, 8, 8)


def test_a_unit_that_raises_its_own_is_looked_at_three_weeks_after_the_split() -> None:
    """Read: EU project B-THENET practice sheet, "21 days after making the split"."""
    story = Story().on(1, EntryKind.RAISING_OWN)
    assert story.days(CheckKind.LAYING) == (22, 25, 31)
    assert story.rests() == [(11, 21)]


def test_a_unit_that_raises_its_own_and_was_seen_sealed_late() -> None:
    story = Story().on(1, EntryKind.RAISING_OWN).on(14, EntryKind.NOT_EMERGED)
    assert story.days(CheckKind.LAYING) == (24, 27, 33)


def test_no_eggs_before_any_are_due_puts_no_look_off() -> None:
    assert ripe_cell().on(10, EntryKind.NO_EGGS).days(CheckKind.LAYING) == (13, 15, 17)
    assert ripe_cell().on(13, EntryKind.NO_EGGS).days(CheckKind.LAYING) == (18, 20, 20)


def test_the_next_look_counts_from_the_last_one_whatever_it_told() -> None:
    story = ripe_cell().on(15, EntryKind.NO_EGGS).on(17, EntryKind.VIRGIN_SEEN)
    assert story.days(CheckKind.LAYING) == (22, 24, 24)


@pytest.mark.parametrize("seen", [EntryKind.NO_EGGS, EntryKind.VIRGIN_SEEN, EntryKind.QUEEN_SEEN])
def test_without_eggs_the_next_look_is_a_week_later(seen: EntryKind) -> None:
    story = ripe_cell().on(15, seen)
    assert story.days(CheckKind.LAYING) == (20, 22, 22)
    assert story.check(CheckKind.LAYING).why.cause is Cause.NO_EGGS_YET
    assert story.rests() == [(16, 19)]


def test_a_virgin_seen_at_the_emergence_check_moves_nothing() -> None:
    story = ripe_cell().on(4, EntryKind.VIRGIN_SEEN)
    assert story.days(CheckKind.LAYING) == (13, 15, 17)
    assert CheckKind.EMERGENCE not in story.kinds()


def test_once_there_are_eggs_nobody_looks_for_them() -> None:
    assert CheckKind.LAYING not in ripe_cell().on(15, EntryKind.EGGS).kinds()


def test_a_queen_that_stopped_is_looked_at_again_in_a_week() -> None:
    story = ripe_cell().on(15, EntryKind.EGGS).on(24, EntryKind.NO_EGGS)
    assert story.days(CheckKind.LAYING) == (29, 31, 31)
    assert CheckKind.TAKE not in story.kinds()
    assert story.on(30, EntryKind.EGGS).days(CheckKind.TAKE) == (29, 29, None)


def test_a_queen_of_unknown_age_is_looked_at_again_in_a_week() -> None:
    story = Story().on(1, EntryKind.MADE_UP).on(9, EntryKind.QUEEN_SEEN)
    assert story.days(CheckKind.LAYING) == (14, 16, 16)
    assert CheckKind.GIVE_UP not in story.kinds()


def grounded(story: Story, *days: int) -> Story:
    for number in days:
        story.on(number, EntryKind.WEATHER_SEEN, DayWeather(Flying.NOT_FLYING))
    return story


def test_each_day_without_flying_weather_puts_the_look_back_a_day() -> None:
    story = grounded(ripe_cell(), 9, 10, 11)
    assert story.days(CheckKind.LAYING) == (16, 18, 20)
    why = story.check(CheckKind.LAYING).why
    assert (why.cause, why.days) == (Cause.EGGS_DELAYED, 3)
    assert story.rests()[-1] == (6, 15)


def test_rain_before_she_is_old_enough_to_fly_costs_nothing() -> None:
    assert grounded(ripe_cell(), 4, 5, 6).days(CheckKind.LAYING) == (13, 15, 17)


def test_rain_after_the_look_costs_nothing() -> None:
    assert grounded(ripe_cell(), 16, 17).days(CheckKind.LAYING) == (13, 15, 17)


def test_rain_on_the_days_gained_counts_too() -> None:
    assert grounded(ripe_cell(), 9, 10, 11, 14, 15).days(CheckKind.LAYING) == (16, 20, 22)


def test_however_long_it_rains_she_is_looked_at_before_she_is_too_old() -> None:
    story = grounded(ripe_cell(), *range(9, 30))
    assert story.days(CheckKind.LAYING)[1] == 24  # 21 days after she emerged on the third
    assert story.days(CheckKind.GIVE_UP) == (24, 24, 31)


def test_the_later_word_on_a_days_weather_counts() -> None:
    story = grounded(ripe_cell(), 9)
    story.on(9, EntryKind.WEATHER_SEEN, DayWeather(Flying.FLYING))
    assert story.days(CheckKind.LAYING) == (13, 15, 17)


def test_rain_between_two_looks_puts_the_second_back() -> None:
    story = grounded(ripe_cell().on(15, EntryKind.NO_EGGS), 16, 17, 18, 19, 20, 21)
    assert story.days(CheckKind.LAYING) == (20, 24, 24)


def test_a_day_of_rain_in_the_week_until_the_second_look_costs_nothing() -> None:
    story = grounded(ripe_cell().on(15, EntryKind.NO_EGGS), 17)
    assert story.days(CheckKind.LAYING) == (20, 22, 22)


def test_a_unit_found_with_nothing_known_of_it_but_no_eggs_has_nothing_to_wait_for() -> None:
    assert Story().on(9, EntryKind.NO_EGGS).checks() == ()
