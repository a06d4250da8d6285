"""Hours of invented weather, for tests."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta

from scheduling.weather.day import DayOfWeather, sums_of
from scheduling.weather.fit_hours import flight_hours_of
from scheduling.weather.hour import HourOfWeather, Site, by_day

GREENWICH = Site(51.5, 0.0, "UTC")
"""Where solar time is the clock's, but for the equation of time."""

EVEN_DAY = date(2027, 4, 15)
"""A day on which the equation of time is nothing: solar noon at Greenwich is at 12:00 UTC."""

FINE = HourOfWeather(
    datetime(2027, 4, 15, 12, tzinfo=UTC),
    temperature_c=24,
    wind_kmh=8,
    rain_mm=0,
    cloud_share=0.2,
    sunshine_minutes=50,
    humidity_percent=50,
)


def at(hour: int, day: date = EVEN_DAY) -> datetime:
    """The instant of a whole hour in UTC."""
    return datetime.combine(day, time(), tzinfo=UTC) + timedelta(hours=hour)


def whole_day(like: HourOfWeather = FINE, day: date = EVEN_DAY) -> list[HourOfWeather]:
    """Twenty-four hours alike."""
    return [replace(like, at=at(hour, day)) for hour in range(24)]


def flight_hours(hours: Iterable[HourOfWeather], site: Site) -> Mapping[date, float]:
    return flight_hours_of(by_day(hours, site.zone), site)


def days_of_weather(hours: Iterable[HourOfWeather], site: Site) -> Mapping[date, DayOfWeather]:
    return sums_of(by_day(hours, site.zone), site)
