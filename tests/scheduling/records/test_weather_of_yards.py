"""Weather kept for a yard: the newest word on an hour counts, and of another place none."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest
from sqlalchemy import func, select
from sqlalchemy.orm import Session

from scheduling.records.crew_records import CrewRecords
from scheduling.records.weather_asked import (
    YardToAsk,
    claim_yards,
    forget_hours_before,
    keep_answer,
    note_no_answer,
)
from scheduling.records.weather_days import WeatherHourRow
from scheduling.weather.hour import HourOfWeather, Site

NOW = datetime(2027, 5, 12, 15, 30, tzinfo=UTC)
SOON, LATER = NOW + timedelta(minutes=10), NOW + timedelta(hours=3)
FINE = HourOfWeather(NOW, temperature_c=24, wind_kmh=8, rain_mm=0, sunshine_minutes=50)
FIRST = date(2027, 5, 1)


def hours(first: datetime, count: int, like: HourOfWeather = FINE) -> Iterator[HourOfWeather]:
    """So many hours alike."""
    return (replace(like, at=first + timedelta(hours=hour)) for hour in range(count))


def claimed(session: Session, now: datetime) -> tuple[YardToAsk, ...]:
    return claim_yards(session, now, now + timedelta(minutes=10), 10)


@pytest.fixture
def river(session: Session, records: CrewRecords) -> YardToAsk:
    """The yard River, now with a place, as the source is to be asked for it."""
    records.set_location("River", 41.3, -92.6)
    (asked,) = claimed(session, NOW)
    return asked


def kept(session: Session) -> int:
    return session.scalar(select(func.count()).select_from(WeatherHourRow)) or 0


def test_a_yard_without_a_place_is_not_asked_for(session: Session, records: CrewRecords) -> None:
    assert claimed(session, NOW) == ()
    assert records.weather(FIRST) == {}


def test_a_yard_that_is_being_asked_for_is_not_asked_for_twice(
    session: Session, river: YardToAsk
) -> None:
    assert claimed(session, NOW) == ()
    assert claimed(session, SOON) == (river,)


def test_a_yard_with_a_place_is_asked_for_until_it_was_answered(
    session: Session, river: YardToAsk
) -> None:
    assert river.site == Site(41.3, -92.6, "America/Chicago")
    keep_answer(session, river, hours(NOW, 3), NOW, LATER)
    assert claimed(session, SOON) == ()
    (again,) = claimed(session, LATER)
    assert (again.answered_at, again.failures) == (NOW, 0)


def test_no_answer_is_counted_and_keeps_what_is_known(session: Session, river: YardToAsk) -> None:
    keep_answer(session, river, hours(NOW, 3), NOW, LATER)
    asked = replace(river, answered_at=NOW)
    for failures in (1, 2):
        note_no_answer(session, asked, LATER)
        (asked,) = claimed(session, LATER)
        assert (asked.failures, asked.answered_at) == (failures, NOW)
    assert kept(session) == 3


def test_hours_come_back_as_flight_hours_of_the_yard_s_days(
    session: Session, records: CrewRecords, river: YardToAsk
) -> None:
    start = datetime(2027, 5, 9, 5, tzinfo=UTC)  # midnight in Chicago
    keep_answer(session, river, hours(start, 6 * 24), NOW, LATER)
    weather = records.weather(FIRST)["River"]
    assert weather.flight_hours == {date(2027, 5, d): pytest.approx(5) for d in range(9, 15)}
    assert weather.days[date(2027, 5, 9)].warmest_c == 24
    assert weather.measured_to == date(2027, 5, 11)


def test_a_newer_answer_takes_the_place_of_the_older(
    session: Session, records: CrewRecords, river: YardToAsk
) -> None:
    start = datetime(2027, 5, 12, 5, tzinfo=UTC)
    keep_answer(session, river, hours(start, 24), NOW, LATER)
    rain = replace(FINE, rain_mm=2)
    keep_answer(session, river, hours(start, 24, rain), LATER, LATER)
    assert records.weather(FIRST)["River"].flight_hours == {date(2027, 5, 12): 0}
    assert kept(session) == 24


def test_faults_are_not_kept(session: Session, records: CrewRecords, river: YardToAsk) -> None:
    keep_answer(session, river, [replace(FINE, wind_kmh=1686.6)], NOW, LATER)
    row = session.scalars(select(WeatherHourRow)).one()
    assert (row.wind_kmh, row.temperature_c) == (None, 24)


def test_an_answer_of_no_hours_takes_nothing_away(session: Session, river: YardToAsk) -> None:
    keep_answer(session, river, hours(NOW, 3), NOW, LATER)
    keep_answer(session, river, [], LATER, LATER)
    assert kept(session) == 3


def test_a_yard_that_moved_is_asked_for_at_once_and_forgets_where_it_was(
    session: Session, records: CrewRecords, river: YardToAsk
) -> None:
    keep_answer(session, river, hours(NOW, 3), NOW, LATER)
    records.set_location("River", 42.2, -92.6)
    (asked,) = claimed(session, NOW)
    assert (asked.answered_at, asked.site.latitude) == (None, 42.2)
    assert kept(session) == 0


def test_an_answer_for_a_place_the_yard_has_left_is_let_go(
    session: Session, records: CrewRecords, river: YardToAsk
) -> None:
    records.set_location("River", 42.2, -92.6)
    keep_answer(session, river, hours(NOW, 3), NOW, LATER)
    note_no_answer(session, river, LATER)
    assert kept(session) == 0
    assert [yard.site.latitude for yard in claimed(session, NOW)] == [42.2]


def test_only_days_from_the_first_are_given(
    session: Session, records: CrewRecords, river: YardToAsk
) -> None:
    start = datetime(2027, 5, 9, 5, tzinfo=UTC)
    keep_answer(session, river, hours(start, 3 * 24), NOW, LATER)
    assert min(records.weather(date(2027, 5, 11))["River"].days) == date(2027, 5, 11)


def test_old_hours_are_forgotten(session: Session, river: YardToAsk) -> None:
    keep_answer(session, river, hours(NOW, 5), NOW, LATER)
    forget_hours_before(session, NOW + timedelta(hours=2))
    assert kept(session) == 3
