"""One hour of weather at a place, as far as it is known, and the sun's own clock there."""

import math
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from astral.julian import julianday, julianday_to_juliancentury
from astral.sun import eq_of_time

from scheduling.trade import table

HOUR = timedelta(hours=1)


@dataclass(frozen=True)
class Site:
    """Where a yard is: degrees north, degrees east, and the IANA name of its time zone."""

    latitude: float
    longitude: float
    zone: str


@dataclass(frozen=True)
class Span:
    """The time between two aware instants."""

    start: datetime
    end: datetime

    @property
    def hours(self) -> float:
        """How long it is."""
        return max(timedelta(), self.end - self.start) / HOUR

    def overlap(self, start: datetime) -> float:
        """How much of the hour that begins at ``start`` lies in it, from 0 to 1."""
        end = start + HOUR
        if end <= self.start or start >= self.end:
            return 0.0
        return Span(max(start, self.start), min(end, self.end)).hours


def solar_noon(day: date, site: Site) -> datetime:
    """Give the instant on the local date ``day`` at which the sun stands highest.

    Within half a minute, by the equation of time of a general astronomy library.
    """
    midday = datetime.combine(day, time(12), tzinfo=ZoneInfo(site.zone)).astimezone(UTC)
    off = 12 - solar_hour(midday, site.longitude)
    return midday + off * HOUR


def solar_hour(instant: datetime, longitude: float) -> float:
    """Give the local solar time at an aware instant, in hours from 0 to 24; noon is 12."""
    utc = instant.astimezone(UTC)
    minutes_ahead = eq_of_time(julianday_to_juliancentury(julianday(utc)))
    clock = utc.hour + utc.minute / 60 + utc.second / 3600
    return (clock + longitude / 15 + minutes_ahead / 60) % 24


def between_solar_hours(day: date, site: Site, first: float, last: float) -> Span:
    """Give the span of the local date between two hours of solar time."""
    noon = solar_noon(day, site)
    return Span(noon + (first - 12) * HOUR, noon + (last - 12) * HOUR)


@dataclass(frozen=True)
class HourOfWeather:
    """The weather of the hour that begins ``at``. What is not known is None, never zero.

    Attributes:
        at: the instant at which the hour begins (aware).
        temperature_c: air temperature in the shade, degrees Celsius.
        wind_kmh: mean wind, kilometres per hour.
        rain_mm: rain, snow and hail that fell in the hour, millimetres of water.
        cloud_share: share of the sky under cloud, 0 to 1.
        sunshine_minutes: minutes of sun in the hour.
        humidity_percent: relative humidity, per cent.

    Raises:
        ValueError: the instant is not aware.
    """

    at: datetime
    temperature_c: float | None = None
    wind_kmh: float | None = None
    rain_mm: float | None = None
    cloud_share: float | None = None
    sunshine_minutes: float | None = None
    humidity_percent: float | None = None

    def __post_init__(self) -> None:
        if self.at.utcoffset() is None:
            raise ValueError("an hour of weather begins at an aware instant")


def without_faults(hour: HourOfWeather) -> HourOfWeather:
    """Leave out what no weather can be, such as a wind of 1,700 km/h; the rest stays."""
    return replace(
        hour,
        temperature_c=_within(
            hour.temperature_c, table.COLDEST_READING.value, table.HOTTEST_READING.value
        ),
        wind_kmh=_within(hour.wind_kmh, 0, table.WINDIEST_READING.value),
        rain_mm=_within(hour.rain_mm, 0, table.WETTEST_READING.value),
        cloud_share=_within(hour.cloud_share, 0, 1),
        sunshine_minutes=_within(hour.sunshine_minutes, 0, 60),
        humidity_percent=_within(hour.humidity_percent, 0, 100),
    )


def _within(reading: float | None, least: float, most: float) -> float | None:
    if reading is None or not math.isfinite(reading):
        return None
    return reading if least <= reading <= most else None


HALF_AN_HOUR = timedelta(minutes=30)

HoursByDay = Mapping[date, tuple[HourOfWeather, ...]]
"""Hours by local date, in their order, without faults."""


def by_day(hours: Iterable[HourOfWeather], zone: str) -> HoursByDay:
    """Sort hours into local dates, faults left out; of two reports of an hour the last counts."""
    days: dict[date, dict[float, HourOfWeather]] = defaultdict(dict)
    for hour in hours:
        day = local_day_of(hour.at, zone)
        days[day][hour.at.timestamp()] = without_faults(hour)
    return {day: tuple(days[day][at] for at in sorted(days[day])) for day in sorted(days)}


def local_day_of(at: datetime, zone: str) -> date:
    """Give the local date of the hour that begins at an instant: that of its middle."""
    return (at + HALF_AN_HOUR).astimezone(ZoneInfo(zone)).date()
