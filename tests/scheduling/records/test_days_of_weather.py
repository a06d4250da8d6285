"""Weather becomes days once, when the source answers; a reply reads days and never hours."""

from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest
from sqlalchemy import Engine, event, select, update
from sqlalchemy.orm import Session

from scheduling.records.crew_records import CrewRecords, found_crew
from scheduling.records.engine import reading, writing
from scheduling.records.weather_asked import YardToAsk, claim_yards, keep_answer
from scheduling.records.weather_days import WeatherAskedRow, WeatherDayRow, make_days_anew
from scheduling.weather.day import days_to_keep
from scheduling.weather.hour import HourOfWeather
from scheduling.weather.yard_weather import YardWeather
from tests.scheduling.weather.test_days_to_keep import IOWA, hours

NOW = datetime(2027, 5, 4, 15, 30, tzinfo=UTC)
LATER = NOW + timedelta(hours=3)
FIRST = date(2027, 4, 20)
OUTDATED = "other figures"


@pytest.fixture
def crew_id(engine: Engine) -> int:
    """A crew with one yard in Iowa, for which the source has answered with a week."""
    with writing(engine) as session:
        crew, _ = found_crew(session, "Crew", "Ada", "America/Chicago", NOW)
        records = CrewRecords(session, crew.id)
        records.add_yard("River", "America/Chicago", latitude=41.3, longitude=-92.6)
        answer(session, hours(7 * 24))
    return crew.id


def answer(session: Session, told: list[HourOfWeather], now: datetime = NOW) -> YardToAsk:
    (river,) = claim_yards(session, now, now + timedelta(minutes=10), 1)
    keep_answer(session, river, told, now, now + timedelta(hours=3))
    return river


def weather(engine: Engine, crew_id: int) -> YardWeather:
    with reading(engine) as session:
        return CrewRecords(session, crew_id).weather(FIRST)["River"]


def outdate(engine: Engine) -> None:
    """As if the days had been made with another limit for flight."""
    with writing(engine) as session:
        session.execute(update(WeatherAskedRow).values(figures=OUTDATED))
        session.execute(update(WeatherDayRow).values(flight_hours=9.0))


def version(engine: Engine) -> str:
    with reading(engine) as session:
        return session.scalars(select(WeatherAskedRow.figures)).one()


def anew(engine: Engine) -> int:
    return make_days_anew(engine, lambda: True)


@pytest.fixture
def statements(engine: Engine) -> Iterator[list[str]]:
    """What the database is asked from here on."""
    asked: list[str] = []

    def note(_c: Any, _cursor: Any, statement: str, *_: Any) -> None:
        asked.append(statement)

    event.listen(engine, "before_cursor_execute", note)
    yield asked
    event.remove(engine, "before_cursor_execute", note)


def test_a_crew_s_weather_is_one_statement_about_days(
    engine: Engine, crew_id: int, statements: list[str]
) -> None:
    statements.clear()
    weather(engine, crew_id)
    about = [statement for statement in statements if "weather" in statement]
    assert len(about) == 1
    assert "weather_hour" not in about[0]


def test_the_days_read_are_those_that_the_hours_come_to(engine: Engine, crew_id: int) -> None:
    told = hours(7 * 24)
    over = [hour for hour in told if hour.at + timedelta(hours=1) <= NOW]
    made = days_to_keep(over, told[len(over) :], IOWA)
    found = weather(engine, crew_id)
    assert found.days == {day: kept.weather for day, kept in made.items()}
    assert found.flight_hours == {day: kept.flight_hours for day, kept in made.items()}
    assert found.measured_to == date(2027, 5, 3)


def test_an_answer_makes_only_its_own_days_anew(engine: Engine, crew_id: int) -> None:
    before = weather(engine, crew_id)
    with writing(engine) as session:
        session.execute(update(WeatherDayRow).values(mean_c=99.0))
        answer(session, hours(7 * 24)[5 * 24 + 3 :], LATER)
    after = weather(engine, crew_id)
    means = [day.mean_c for day in after.days.values()]
    assert means == [99.0] * 5 + [day.mean_c for day in before.days.values()][5:]


def test_days_of_other_figures_are_made_anew_out_of_the_hours_kept(
    engine: Engine, crew_id: int
) -> None:
    before, made_with = weather(engine, crew_id), version(engine)
    outdate(engine)
    assert weather(engine, crew_id) != before
    assert anew(engine) == 1
    assert (weather(engine, crew_id), version(engine)) == (before, made_with)
    assert anew(engine) == 0


def test_an_answer_between_leaves_the_older_days_to_be_made_anew(
    engine: Engine, crew_id: int
) -> None:
    before = weather(engine, crew_id)
    outdate(engine)
    with writing(engine) as session:
        answer(session, hours(7 * 24)[5 * 24 :], LATER)
    assert version(engine) == OUTDATED
    anew(engine)
    assert weather(engine, crew_id).flight_hours == before.flight_hours


def test_whoever_is_to_stop_makes_no_more_days(engine: Engine, crew_id: int) -> None:
    outdate(engine)
    assert make_days_anew(engine, lambda: False) == 0
    assert version(engine) == OUTDATED


def test_in_another_zone_the_same_hours_are_other_days(engine: Engine, crew_id: int) -> None:
    with writing(engine) as session:
        CrewRecords(session, crew_id).set_yard_zone("River", "Asia/Tokyo")
    assert max(weather(engine, crew_id).days) == date(2027, 5, 8)


def test_a_yard_that_moved_keeps_no_day_of_where_it_was(engine: Engine, crew_id: int) -> None:
    with writing(engine) as session:
        CrewRecords(session, crew_id).set_location("River", 42.0, -92.6)
        answer(session, hours(24), LATER)
    assert list(weather(engine, crew_id).days) == [date(2027, 5, 1)]
