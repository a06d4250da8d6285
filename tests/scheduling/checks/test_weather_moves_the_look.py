"""What the weather of a yard does to the look for eggs and to giving up; all of it invented.

Cells are placed on the first of May, ripe, so that the queen is due on the third.
"""

from types import MappingProxyType

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduling.check_kinds import CheckKind
from scheduling.checks.calendar import work_out
from scheduling.checks.check import Cause, Check
from scheduling.checks.forecasts import QueenForecast
from scheduling.entry_kinds import EntryKind
from scheduling.trade import table
from scheduling.values import DayWeather, Flying, VirginAge
from scheduling.walk.odds import (
    BOLDEST,
    LATEST_GIVEN_UP,
    MOST_CAREFUL,
    SOONEST_GIVEN_UP,
    Odds,
    settled,
)
from scheduling.weather.yard_weather import YardWeather
from tests.scheduling.story import YARD, Story, in_may, may, maybe_in_may, unit

FIT = 4.0
"""Hours: more than make a mating day."""


def hours(*grounded: int, of: float = 0.0) -> dict[str, YardWeather]:
    """May's weather at the yard, fit for flying but on these days."""
    day_hours = {may(number): of if number in grounded else FIT for number in range(1, 46)}
    return {YARD: YardWeather(MappingProxyType(day_hours))}


def ripe_cell() -> Story:
    return Story().on(1, EntryKind.CELL_PLACED)


def check(
    story: Story, weather: dict[str, YardWeather], kind: CheckKind = CheckKind.LAYING
) -> Check:
    checks = work_out(story.entries, weather).checks[unit()]
    (found,) = [each for each in checks if each.kind is kind]
    return found


def days(
    story: Story, weather: dict[str, YardWeather], kind: CheckKind = CheckKind.LAYING
) -> tuple[int, int | None, int | None]:
    found = check(story, weather, kind)
    return in_may(found.not_before), maybe_in_may(found.best), maybe_in_may(found.by)


def forecast(story: Story, weather: dict[str, YardWeather] | None = None) -> QueenForecast:
    return work_out(story.entries, weather).forecasts[unit()]


def test_in_fair_weather_nothing_moves() -> None:
    story = ripe_cell().on(4, EntryKind.EMERGED)
    assert days(story, hours()) == story.days(CheckKind.LAYING) == (13, 15, 17)
    assert check(story, hours()).why.cause is Cause.EGGS_EXPECTED


def test_five_cold_days_put_it_back_five_and_say_so() -> None:
    story = ripe_cell().on(4, EntryKind.EMERGED)
    cold = hours(9, 10, 11, 12, 13)
    assert days(story, cold) == (18, 20, 22)
    why = check(story, cold).why
    assert (why.cause, why.days, why.about) == (Cause.EGGS_DELAYED, 5, may(18))


def test_a_day_with_one_fit_hour_is_half_a_mating_day() -> None:
    half = table.WHOLE_MATING_DAY.value / 2
    best = days(ripe_cell(), hours(*range(8, 14), of=half))[1]
    assert best is not None
    assert 15 < best < 21


def test_the_keepers_word_overrules_the_hours() -> None:
    cold = hours(9, 10, 11, 12, 13)
    story = ripe_cell()
    for number in (9, 10, 11, 12, 13):
        story.on(number, EntryKind.WEATHER_SEEN, DayWeather(Flying.FLYING))
    assert days(story, cold) == (13, 15, 17)


def test_weather_of_another_yard_or_another_time_moves_nothing() -> None:
    cold = hours(9, 10, 11, 12, 13)
    assert days(ripe_cell(), {"hill": cold[YARD]}) == (13, 15, 17)
    long_ago = {YARD: YardWeather(MappingProxyType({may(number): 0.0 for number in range(-9, 3)}))}
    assert days(ripe_cell(), long_ago) == (13, 15, 17)


def test_the_next_look_waits_for_the_weather_too() -> None:
    story = ripe_cell().on(15, EntryKind.NO_EGGS)
    assert days(story, hours()) == (20, 22, 22)
    rainy = hours(*range(14, 20))
    assert days(story, rainy) == (23, 24, 24)
    why = check(story, rainy).why
    assert (why.seen, why.cause, why.days) == (may(15), Cause.EGGS_DELAYED, 2)


def test_rain_lets_her_be_waited_for_past_three_weeks_but_not_past_four() -> None:
    story = ripe_cell().on(4, EntryKind.EMERGED)
    for days_of_rain, best in ((0, 24), (5, 24), (8, 26), (12, 29), (16, 30)):
        rainy = hours(*range(9, 9 + days_of_rain))
        assert days(story, rainy, CheckKind.GIVE_UP) == (24, best, 31)


def test_where_she_cannot_fly_before_she_is_too_old_there_is_nothing_to_wait_for() -> None:
    story = ripe_cell().on(4, EntryKind.EMERGED)
    assert days(story, hours(*range(9, 34)), CheckKind.GIVE_UP) == (24, 24, 31)


def test_a_virgin_seen_is_waited_for_longer() -> None:
    unseen = ripe_cell().on(18, EntryKind.NO_EGGS)
    seen = ripe_cell().on(18, EntryKind.VIRGIN_SEEN)
    assert unseen.days(CheckKind.GIVE_UP) == (25, 25, 31)
    assert seen.days(CheckKind.GIVE_UP) == (25, 28, 31)


def test_a_look_at_a_queen_past_three_weeks_says_that_fewer_mate_well() -> None:
    story = ripe_cell().on(19, EntryKind.NO_EGGS)
    why = story.check(CheckKind.LAYING).why
    assert (why.cause, why.days, why.about) == (Cause.MATES_LATE, 23, may(31))


def test_a_virgin_cannot_have_flown_before_she_was_placed() -> None:
    story = Story().on(10, EntryKind.VIRGIN_PLACED, VirginAge(8))
    assert forecast(story).eggs_by(may(11)) == 0
    assert forecast(story).eggs_by(may(20)) > 0.8


def test_what_is_known_of_a_queen_stands_in_the_calendar() -> None:
    story = ripe_cell().on(4, EntryKind.EMERGED)
    known = forecast(story, hours(9, 10, 11, 12, 13))
    assert known.weather_known
    assert known.days_without_flying(may(12)) == 3
    assert known.days_without_flying(may(20)) == 5
    assert known.eggs_by(may(20)) == pytest.approx(0.8, abs=0.02)
    assert known.eggs_by(may(9)) < 0.01
    assert known.still_lays == pytest.approx(table.BACK_FROM_MATING.value, abs=0.03)


def test_after_cold_days_a_look_without_eggs_leaves_more_hope() -> None:
    story = ripe_cell().on(4, EntryKind.EMERGED).on(16, EntryKind.NO_EGGS)
    assert forecast(story, hours()).still_lays == pytest.approx(0.31, abs=0.02)
    assert forecast(story, hours(9, 10, 11, 12, 13)).still_lays == pytest.approx(0.68, abs=0.02)


@pytest.mark.parametrize(
    "told",
    [
        Story().on(1, EntryKind.CAGED_QUEEN_PLACED),
        ripe_cell().on(15, EntryKind.EGGS),
        ripe_cell().on(4, EntryKind.CELL_FAILED),
        Story().on(9, EntryKind.QUEEN_SEEN),
        ripe_cell().on(4, EntryKind.EMERGED).on(6, EntryKind.NOT_EMERGED),
    ],
    ids=["mated", "lays", "no queen", "of unknown age", "cannot be"],
)
def test_there_is_nothing_to_reckon_with_of_a_queen_that_is(told: Story) -> None:
    assert work_out(told.entries).forecasts == {}


def test_what_was_seen_of_an_earlier_queen_does_not_count() -> None:
    fresh = Story().on(20, EntryKind.CELL_PLACED)
    second = ripe_cell().on(4, EntryKind.EMERGED).on(15, EntryKind.NO_EGGS)
    second.on(17, EntryKind.QUEEN_DEAD).on(20, EntryKind.CELL_PLACED)
    assert forecast(second) == forecast(fresh)


def test_a_crew_may_set_its_own_odds() -> None:
    story = ripe_cell().on(4, EntryKind.EMERGED)
    careful = work_out(story.entries, hours(), Odds(best=0.95, latest=0.97))
    (look,) = [each for each in careful.checks[unit()] if each.kind is CheckKind.LAYING]
    assert maybe_in_may(look.best) == 19


def by_odds(best: float | None = None, give_up: float | None = None) -> dict[CheckKind, Check]:
    """The checks of a queen out since the third, of whose weather nothing is known."""
    story = ripe_cell().on(4, EntryKind.EMERGED)
    checks = work_out(story.entries, odds=settled(best, give_up)).checks[unit()]
    return {check.kind: check for check in checks}


def test_bolder_odds_bring_the_look_forward_and_end_the_rest_before_it() -> None:
    bold = by_odds(best=0.5)
    assert maybe_in_may(bold[CheckKind.LAYING].best) == 13
    assert maybe_in_may(by_odds()[CheckKind.LAYING].best) == 15
    rest, look = bold[CheckKind.REST], bold[CheckKind.LAYING]
    assert rest.by is not None
    assert rest.by < look.not_before


def test_who_waits_for_less_hope_gives_up_later_and_who_wants_more_sooner() -> None:
    days_given_up = [
        maybe_in_may(by_odds(give_up=odds)[CheckKind.GIVE_UP].best) for odds in (0.3, 0.1, 0.05)
    ]
    assert days_given_up == [21, 24, 26]


@given(
    st.floats(BOLDEST, MOST_CAREFUL),
    st.floats(LATEST_GIVEN_UP, SOONEST_GIVEN_UP),
    st.sampled_from([EntryKind.CELL_PLACED, EntryKind.RAISING_OWN, EntryKind.VIRGIN_PLACED]),
)
def test_any_odds_a_crew_may_settle_on_give_a_calendar(
    best: float, give_up: float, start: EntryKind
) -> None:
    story = Story().on(1, start)
    calendar = work_out(story.entries, hours(8, 9, 10), settled(best, give_up))
    for asked in calendar.checks[unit()]:
        assert asked.best is None or asked.not_before <= asked.best
