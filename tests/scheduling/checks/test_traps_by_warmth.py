"""A beetle trap is emptied by the week in warmth, more seldom in the cool.

Eggs and feeding larvae take 2 to 3 and 5 to 8 days (USDA-ARS,
https://ars.usda.gov/southeast-area/baton-rouge-la/honeybeelab/docs/small-hive-beetles); at 21 C a
larva takes 17 days, and under 13.5 C no egg hatches (Effects of temperature, diet and other
factors on Aethina tumida,
https://discovery.researcher.life/article/the-effects-of-temperature-diet-and-other-factors-on-development-survivorship-and-oviposition-of-aethina-tumida-coleoptera-nitidulidae/b0bacb1fbf733764827fcb06a9be902b).
Two weeks and four are our reckoning from it.
"""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date, timedelta

from scheduling.check_kinds import CheckKind
from scheduling.checks.calendar import Calendar, work_out
from scheduling.checks.upkeep import service_day
from scheduling.entry_kinds import EntryKind
from scheduling.values import TrapCount
from scheduling.weather.day import DayOfWeather
from scheduling.weather.yard_weather import YardWeather
from tests.scheduling.story import YARD, Story, may, unit

HOT, MILD, COLD = (DayOfWeather(warmest_c=w, mean_c=m) for w, m in ((29, 24), (21, 16), (12, 8)))


def spell(like: DayOfWeather, first: int = 1, last: int = 60) -> Mapping[date, DayOfWeather]:
    return {may(day): like for day in range(first, last + 1)}


def test_a_hot_week_is_a_week() -> None:
    assert service_day(may(1), spell(HOT)) == may(8)


def test_a_mild_spell_is_two_weeks() -> None:
    assert service_day(may(1), spell(MILD)) == may(15)


def test_the_first_warm_day_after_the_week_ends_the_wait() -> None:
    assert service_day(may(1), {**spell(MILD), may(11): HOT}) == may(11)


def test_where_no_egg_hatches_it_is_four_weeks() -> None:
    assert service_day(may(1), spell(COLD)) == may(29)


def test_a_single_unknown_day_is_taken_to_be_warm() -> None:
    known = dict(spell(MILD))
    del known[may(5)]
    assert service_day(may(1), known) == may(8)
    assert service_day(may(1), {}) == may(8)


def trapped() -> Story:
    return Story().on(1, EntryKind.EGGS).on(1, EntryKind.TRAP_SERVICED, TrapCount(2))


def in_weather(story: Story, days: Mapping[date, DayOfWeather], yard: str = YARD) -> Calendar:
    return work_out(story.entries, {yard: YardWeather(days=days)})


def trap_day(story: Story, days: Mapping[date, DayOfWeather]) -> date | None:
    calendar = in_weather(story, days)
    (check,) = [c for c in calendar.checks[unit()] if c.kind is CheckKind.TRAP]
    return check.best


def test_the_check_moves_with_the_warmth() -> None:
    assert trap_day(trapped(), spell(HOT)) == may(8)
    assert trap_day(trapped(), spell(MILD)) == may(15)


def test_it_is_not_overdue_on_the_day_it_was_moved_to() -> None:
    calendar = in_weather(trapped(), spell(MILD))
    (check,) = [c for c in calendar.checks[unit()] if c.kind is CheckKind.TRAP]
    assert check.by is not None
    assert check.by - may(15) == timedelta(days=3)


def test_many_beetles_are_not_put_back_by_the_cool() -> None:
    story = Story().on(1, EntryKind.EGGS).on(1, EntryKind.TRAP_SERVICED, TrapCount(30))
    assert trap_day(story, spell(MILD)) == may(4)


def test_the_new_day_keeps_out_of_a_rest() -> None:
    story = Story().on(1, EntryKind.MADE_UP).on(1, EntryKind.TRAP_SET)
    story.on(1, EntryKind.CELL_PLACED).on(3, EntryKind.TRAP_SERVICED, TrapCount(0))
    rests = story.rests()
    day = trap_day(story, spell(MILD))
    assert day is not None
    assert not any(may(first) <= day <= may(last) for first, last in rests)


def test_other_checks_and_other_yards_stay_as_they_are() -> None:
    calendar = trapped().calendar()
    elsewhere = in_weather(trapped(), spell(MILD), "elsewhere")
    assert elsewhere.checks == calendar.checks
    moved = in_weather(trapped(), spell(MILD))
    assert replace(moved, checks=calendar.checks) == calendar
    others = [c for c in moved.checks[unit()] if c.kind is not CheckKind.TRAP]
    assert others == [c for c in calendar.checks[unit()] if c.kind is not CheckKind.TRAP]
