"""When a late queen is given up.

Mating should be done 21 days after emergence (COLOSS BEEBOOK, queen rearing 2.2.2,
http://coloss.org/beebook/I/queen-rearing/2/2/2); by four weeks it is too late (Norfolk beekeepers,
https://www.norfolkbee.co.uk/beekeepers-FAQ/when-will-my-new-queen-start-to-lay).
"""

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause
from scheduling.entry_kinds import EntryKind
from scheduling.values import DayWeather, Flying
from tests.scheduling.story import Story, may


def emerged_on_the_third() -> Story:
    return Story().on(1, EntryKind.CELL_PLACED).on(4, EntryKind.EMERGED)


def test_before_the_first_look_it_is_only_foreseen() -> None:
    check = emerged_on_the_third().check(CheckKind.GIVE_UP)
    assert check.follows is CheckKind.LAYING
    assert emerged_on_the_third().days(CheckKind.GIVE_UP) == (24, 24, 31)


def test_three_weeks_old_and_by_four() -> None:
    story = emerged_on_the_third().on(15, EntryKind.NO_EGGS)
    check = story.check(CheckKind.GIVE_UP)
    assert check.follows is None
    assert (check.why.cause, check.why.days, check.why.about) == (Cause.LATE_VIRGIN, 21, may(31))
    assert story.days(CheckKind.GIVE_UP) == (24, 24, 31)


def test_it_shares_the_opening_of_the_next_look_for_eggs() -> None:
    story = emerged_on_the_third().on(19, EntryKind.NO_EGGS)
    assert story.days(CheckKind.LAYING) == (24, 26, 26)
    assert story.days(CheckKind.GIVE_UP) == (26, 26, 31)


def test_after_a_look_past_three_weeks_the_last_date_decides() -> None:
    story = emerged_on_the_third().on(24, EntryKind.NO_EGGS)
    assert CheckKind.LAYING not in story.kinds()
    assert story.days(CheckKind.GIVE_UP) == (29, 31, 31)
    assert story.rests() == [(25, 28)]


def test_past_four_weeks_it_is_due_the_next_day() -> None:
    story = emerged_on_the_third().on(33, EntryKind.VIRGIN_SEEN)
    assert story.days(CheckKind.GIVE_UP) == (34, 34, 34)


def test_rain_does_not_make_her_younger() -> None:
    rainy = emerged_on_the_third()
    for number in (10, 11, 12):
        rainy.on(number, EntryKind.WEATHER_SEEN, DayWeather(Flying.NOT_FLYING))
    assert rainy.days(CheckKind.LAYING) == (16, 18, 20)
    assert rainy.days(CheckKind.GIVE_UP) == (24, 24, 31)


def test_eggs_save_her() -> None:
    story = emerged_on_the_third().on(15, EntryKind.NO_EGGS).on(22, EntryKind.EGGS)
    assert CheckKind.GIVE_UP not in story.kinds()


def test_laying_workers_are_combined_or_shaken_out_not_given_a_cell() -> None:
    story = emerged_on_the_third().on(30, EntryKind.LAYING_WORKERS)
    assert story.days(CheckKind.GIVE_UP) == (30, 31, 37)
    assert story.check(CheckKind.GIVE_UP).why.cause is Cause.LAYING_WORKERS_SEEN
    assert CheckKind.RECELL not in story.kinds()
