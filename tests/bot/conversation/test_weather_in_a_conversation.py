"""The weather kept for a yard moves what a morning and an answer say, through real records."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest
from sqlalchemy import Engine

from bot.conversation.work_out_morning import morning_of
from deploy.standins.phones import Phones, river_of_three
from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName
from scheduling.records.addresses import find_person
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import reading, writing
from scheduling.records.weather_asked import claim_yards, keep_answer
from scheduling.weather.hour import HourOfWeather
from tests.bot.jobs.crews import DAY, Member, keeper

FINE = HourOfWeather(
    datetime(2027, 5, 1, tzinfo=UTC),
    temperature_c=24,
    wind_kmh=8,
    rain_mm=0,
    sunshine_minutes=50,
    humidity_percent=50,
)
RAIN = replace(FINE, rain_mm=2, temperature_c=13, sunshine_minutes=0)
SULTRY = replace(FINE, temperature_c=35, humidity_percent=60)
EARLY = datetime(2027, 5, 12, 5, tzinfo=UTC)


@pytest.fixture
def ada(engine: Engine) -> Member:
    """Cells placed two weeks ago in River, near Greenwich: eggs are due to be seen."""
    return keeper(engine)


def weather(ada: Member, days: dict[date, HourOfWeather], asked: datetime = EARLY) -> None:
    """Keep whole days of weather for the yard."""
    with writing(ada.engine) as session:
        CrewRecords(session, ada.crew_id).set_location("River", 51.5, 0)
        (yard,) = claim_yards(session, asked, asked, 10)
        hours = [
            replace(like, at=datetime(day.year, day.month, day.day, hour, tzinfo=UTC))
            for day, like in days.items()
            for hour in range(24)
        ]
        keep_answer(session, yard, hours, asked, asked)


def spell(first: date, count: int, like: HourOfWeather) -> dict[date, HourOfWeather]:
    return {first + timedelta(days=n): like for n in range(count)}


def told(ada: Member, day: date = DAY) -> str:
    with reading(ada.engine) as session:
        records = CrewRecords(session, ada.crew_id)
        message = morning_of(records, records.person(ada.person_id), day).message
    return message.text if message is not None else ""


def test_in_fine_weather_the_morning_is_as_without_any(ada: Member) -> None:
    without = told(ada)
    assert "Look for eggs 1" in without
    weather(ada, spell(DAY - timedelta(days=14), 21, FINE))
    assert told(ada) == without


def test_six_days_of_rain_move_the_look_for_eggs(ada: Member) -> None:
    fine = spell(DAY - timedelta(days=14), 21, FINE)
    weather(ada, {**fine, **spell(DAY - timedelta(days=8), 6, RAIN)})
    assert "Look for eggs" not in told(ada)
    later = [told(ada, DAY + timedelta(days=n)) for n in range(1, 9)]
    assert any("Look for eggs 1" in text for text in later)


def eggs_seen(ada: Member, day: date) -> None:
    """Eggs in unit 1a on a day, so that nine days later her sealed brood is looked for."""
    entry = Entry(
        "eggs", Place("River", UnitName(1, "a")), EntryKind.EGGS, None, day, EARLY, "Ada", "phone"
    )
    with writing(ada.engine) as session:
        CrewRecords(session, ada.crew_id).append([entry])


def test_a_wet_day_puts_a_look_off_to_the_next_dry_one_and_says_so(ada: Member) -> None:
    eggs_seen(ada, DAY - timedelta(days=9))
    assert "Look for sealed brood 1a" in told(ada)
    weather(ada, {**spell(DAY - timedelta(days=14), 21, FINE), DAY: RAIN})
    assert "Too wet to open, so tomorrow: 1" in told(ada)
    assert "Look for sealed brood" not in told(ada)
    assert "Look for sealed brood 1a" in told(ada, DAY + timedelta(days=1))


def test_a_sultry_day_warns_keeper_and_colonies(ada: Member) -> None:
    fine = spell(DAY - timedelta(days=14), 21, FINE)
    weather(ada, {**fine, DAY: SULTRY})
    assert "Dangerous heat, feels like" in told(ada)
    assert "95 F (35 C): shade, water" in told(ada)


def test_when_the_source_has_been_silent_for_days_the_morning_says_since_when(
    ada: Member,
) -> None:
    long_ago = EARLY - timedelta(days=5)
    weather(ada, spell(DAY - timedelta(days=14), 17, FINE), asked=long_ago)
    assert "No weather since Thu" in told(ada)


def late_queen(phones: Phones) -> Member:
    """A cell of the first of May in River 1a, out by the fourth, and no eggs on the sixteenth."""
    river_of_three(phones)
    phones.on(date(2027, 5, 1)).say("Ada", "10 day cell in 1a")
    phones.on(date(2027, 5, 4)).say("Ada", "1a out")
    with reading(phones.engine) as session:
        person = find_person(session, phones.name, "Ada")
        assert person is not None
    return Member(phones.engine, person.id, person.crew_id)


def test_the_story_of_a_queen_without_eggs_counts_the_cold_days_that_are_kept(
    phones: Phones,
) -> None:
    fine = spell(date(2027, 5, 1), 20, FINE)
    weather(late_queen(phones), {**fine, **spell(date(2027, 5, 9), 5, RAIN)})
    phones.on(date(2027, 5, 16)).say("Ada", "1a no eggs")
    assert (
        "no eggs at day 13, 5 days no flying weather: 7 in 10 she still lays, look again Sun"
        in phones.say("Ada", "1a")
    )


def test_without_any_weather_the_story_has_less_hope(phones: Phones) -> None:
    late_queen(phones)
    phones.on(date(2027, 5, 16)).say("Ada", "1a no eggs")
    assert "no eggs at day 13: 3 in 10 she still lays, look again Sun" in phones.say("Ada", "1a")
