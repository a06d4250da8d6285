"""What the story of a unit says of a queen that does not lay yet; all of it invented."""

from collections.abc import Iterable
from types import MappingProxyType

import pytest

from bot.channels.sms.segments import is_gsm7
from bot.wording.story import queen_odds_words, story
from scheduling.checks.calendar import work_out
from scheduling.entry_kinds import EntryKind
from scheduling.values import Stores, Value
from scheduling.weather.yard_weather import YardWeather
from tests.scheduling.story import YARD, Story, may, unit

COLD = (9, 10, 11, 12, 13)


def looked_into(day: int, found: EntryKind, value: Value | None = None) -> Story:
    """A queen who emerged on the third, looked into on that day of May."""
    out = Story().on(1, EntryKind.CELL_PLACED).on(4, EntryKind.EMERGED)
    return out.on(day, found, value)


def words(told: Story, cold: Iterable[int] = COLD) -> str:
    weather = {YARD: YardWeather(MappingProxyType({may(number): 0.0 for number in cold}))}
    return queen_odds_words(work_out(told.entries, weather).queen(unit()))


@pytest.mark.parametrize(
    ("told", "cold", "said"),
    [
        (looked_into(16, EntryKind.NO_EGGS), COLD, "7 in 10 she still lays"),
        (looked_into(16, EntryKind.NO_EGGS), (), "3 in 10 she still lays"),
        (looked_into(16, EntryKind.VIRGIN_SEEN), (), "9 in 10 she still lays"),
        (
            looked_into(19, EntryKind.NO_EGGS).on(26, EntryKind.NO_EGGS),
            (),
            "hardly a chance she still lays",
        ),
    ],
    ids=["after cold days", "in fair weather", "a virgin there", "in her fourth week"],
)
def test_the_chance_is_told_in_tenths(told: Story, cold: tuple[int, ...], said: str) -> None:
    assert f": {said}" in words(told, cold)


def test_age_and_cold_days_are_told_with_it() -> None:
    told = looked_into(16, EntryKind.NO_EGGS)
    assert words(told) == "no eggs at day 13, 5 days no flying weather: 7 in 10 she still lays"
    assert words(told, (9,)).startswith("no eggs at day 13, 1 day no flying weather: ")
    assert words(told, ()).startswith("no eggs at day 13: ")


def test_of_a_late_virgin_it_is_said_that_fewer_mate_well() -> None:
    """By three weeks mating should be done, by four it is too late: COLOSS BEEBOOK, queen rearing
    2.2.2, http://coloss.org/beebook/I/queen-rearing/2/2/2.
    """
    assert "mate well" not in words(looked_into(24, EntryKind.NO_EGGS))
    late = words(looked_into(25, EntryKind.NO_EGGS))
    assert late.startswith("no eggs at day 22, 5 days no flying weather: ")
    assert late.endswith(" she still lays, fewer mate well so late")


@pytest.mark.parametrize(
    "told",
    [
        Story().on(1, EntryKind.CELL_PLACED),
        looked_into(6, EntryKind.VIRGIN_SEEN),
        looked_into(16, EntryKind.EGGS),
        looked_into(16, EntryKind.QUEEN_DEAD),
    ],
    ids=["not due", "seen before she was due", "she lays", "she is dead"],
)
def test_nothing_is_said_where_there_is_nothing_to_hope_for(told: Story) -> None:
    assert words(told) == ""


def test_the_story_says_it_after_what_was_seen_and_when_to_look_again() -> None:
    told = looked_into(16, EntryKind.STORES, Stores(1)).on(16, EntryKind.NO_EGGS)
    weather = {YARD: YardWeather(MappingProxyType({may(number): 0.0 for number in COLD}))}
    calendar = work_out(told.entries, weather)
    text = story(calendar.queen(unit()), calendar.checks[unit()], may(18))
    _now, last, comes = text.split("\n")
    assert last.endswith(
        ", ida; no eggs at day 13, 5 days no flying weather: 7 in 10 she still lays, look again Sun"
    )
    assert "look for eggs Sun" in comes
    assert is_gsm7(text)
