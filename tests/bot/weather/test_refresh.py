"""Yards with a place get their weather, over real HTTP and into a real database."""

import logging
from datetime import UTC, date, datetime, timedelta

import pytest
from sqlalchemy import Engine

from bot.program_log import private_formatter
from bot.serving import weather_of
from bot.settings.settings import Settings, WeatherSettings
from bot.weather.csv_hours import CsvHours
from bot.weather.open_meteo import OpenMeteo
from bot.weather.refresh import AGAIN, AHEAD, FIRST_RETRY, OVERLAP, PAST, refresh_one
from deploy.standins.weather_standin import WeatherStandin, hourly, says
from scheduling.records.crew_records import CrewRecords, found_crew
from scheduling.records.engine import reading, writing
from scheduling.weather.yard_weather import YardWeather

NOW = datetime(2027, 5, 12, 10, tzinfo=UTC)
TWO_DAYS = says(hourly(datetime(2027, 5, 11, tzinfo=UTC), 72))
BROKEN = says("", 500)


@pytest.fixture
def crew(engine: Engine) -> int:
    """A crew with the yard River on the Tennessee; the yard and the people are invented."""
    with writing(engine) as session:
        crew, _ = found_crew(session, "Crew", "Ada", "UTC", NOW)
        CrewRecords(session, crew.id).add_yard("River", "UTC", latitude=41.3, longitude=-92.6)
    return crew.id


def known(engine: Engine, crew: int) -> YardWeather | None:
    with reading(engine) as session:
        return CrewRecords(session, crew).weather(date(2027, 5, 1)).get("River")


def days_asked(service: WeatherStandin) -> tuple[date, date]:
    asked = service.asked[-1]
    return date.fromisoformat(asked["start_date"]), date.fromisoformat(asked["end_date"])


def test_a_new_yard_is_asked_for_once_and_far_back(
    engine: Engine, crew: int, service: WeatherStandin, client: OpenMeteo
) -> None:
    service.answers = [TWO_DAYS]
    assert refresh_one(engine, client, NOW)
    assert not refresh_one(engine, client, NOW)
    assert days_asked(service) == ((NOW - PAST).date(), (NOW + AHEAD).date())
    weather = known(engine, crew)
    assert weather is not None
    assert weather.measured_to == date(2027, 5, 11)
    assert weather.flight_hours[date(2027, 5, 12)] == pytest.approx(5)


def test_after_three_hours_only_the_last_days_are_asked_for_again(
    engine: Engine, crew: int, service: WeatherStandin, client: OpenMeteo
) -> None:
    service.answers = [TWO_DAYS]
    refresh_one(engine, client, NOW)
    assert not refresh_one(engine, client, NOW + AGAIN - timedelta(seconds=1))
    assert refresh_one(engine, client, NOW + AGAIN)
    assert days_asked(service)[0] == (NOW - OVERLAP).date()


def test_a_failure_keeps_what_is_known_and_is_tried_again_more_and_more_seldom(
    engine: Engine,
    crew: int,
    service: WeatherStandin,
    client: OpenMeteo,
    caplog: pytest.LogCaptureFixture,
) -> None:
    service.answers = [TWO_DAYS]
    refresh_one(engine, client, NOW)
    before = known(engine, crew)
    service.answers = [BROKEN]
    at = NOW + AGAIN
    with caplog.at_level(logging.WARNING):
        for wait in (FIRST_RETRY, 2 * FIRST_RETRY, 4 * FIRST_RETRY):
            assert refresh_one(engine, client, at)
            assert not refresh_one(engine, client, at + wait - timedelta(seconds=1))
            at += wait
    assert known(engine, crew) == before
    assert "no weather for a yard" in caplog.text
    assert "41.3" not in private_formatter().format(caplog.records[-1])


def test_asked_too_often_it_leaves_the_service_alone_as_long_as_it_says(
    engine: Engine, crew: int, service: WeatherStandin, client: OpenMeteo
) -> None:
    service.answers = [says({}, 429, {"Retry-After": "7200"})]
    refresh_one(engine, client, NOW)
    assert not refresh_one(engine, client, NOW + timedelta(seconds=7199))
    assert refresh_one(engine, client, NOW + timedelta(seconds=7200))


def test_the_settings_choose_the_source(tmp_path_factory: pytest.TempPathFactory) -> None:
    file = tmp_path_factory.mktemp("station") / "hours.csv"
    assert weather_of(Settings(weather=WeatherSettings(off=True, file=file))) is None
    assert isinstance(weather_of(Settings(weather=WeatherSettings(file=file))), CsvHours)
    service = weather_of(Settings(weather=WeatherSettings(url="http://127.0.0.1:9")))
    assert isinstance(service, OpenMeteo)
    service.close()
