"""One hour of weather at a place, as far as it is known."""

import math
from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from scheduling.trade import table
from scheduling.weather.solar_time import Span


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

Judge = Callable[[HourOfWeather], bool | None]
"""Tells whether an hour is fit; None where too little is known of it."""

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


def fit_hours(hours: Iterable[HourOfWeather], span: Span, judge: Judge) -> float | None:
    """Count the fit hours of a span; None where too little of it is known.

    Hours that are missing are taken to be like those that are known.
    """
    known = fit = 0.0
    for hour in hours:
        part = span.overlap(hour.at)
        judged = judge(hour) if part > 0 else None
        if judged is not None:
            known += part
            fit += part if judged else 0.0
    if known < table.KNOWN_OF_A_DAY.value * span.hours:
        return None
    return fit / known * span.hours
