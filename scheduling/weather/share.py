"""How much of a span of a day's hours was fit for something, as far as the hours are known."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from scheduling.trade import table
from scheduling.weather.hour import HourOfWeather, without_faults
from scheduling.weather.solar_time import Span

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
