"""Hours of invented weather, for tests."""

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta

from scheduling.weather.hour import HourOfWeather
from scheduling.weather.solar_time import Site

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
