"""Which hours of a day are fit: for a queen to fly and mate, and for a small unit to be opened."""

from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from datetime import date
from enum import StrEnum

from scheduling.trade import table
from scheduling.weather.hour import (
    HourOfWeather,
    HoursByDay,
    Site,
    Span,
    between_solar_hours,
)

Judge = Callable[[HourOfWeather], bool | None]
"""Tells whether an hour is fit; None where too little is known of it."""


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


def flight_hours_of(days: HoursByDay, site: Site) -> Mapping[date, float]:
    """Count the hours fit for mating flights on each local date of which enough is known.

    An hour is fit when it is warm, calm, dry and sunny and lies within the hours of solar time
    in which queens fly. A date that is missing is not known; one with 0.0 is known to be unfit.
    """
    counted = {
        day: fit_hours(told, flying_span(day, site), could_fly) for day, told in days.items()
    }
    return {day: count for day, count in counted.items() if count is not None}


def flying_span(day: date, site: Site) -> Span:
    """Give the time of the local date in which queens fly."""
    first, last = table.FLYING_FROM_HOUR.value, table.FLYING_UNTIL_HOUR.value
    return between_solar_hours(day, site, first, last)


def could_fly(hour: HourOfWeather) -> bool | None:
    """Tell whether a queen could fly; None where nothing forbids it and too little is known.

    Temperature, wind and rain must be known. The sky forbids flight only where it is known,
    because few stations tell it.
    """
    needed = (_warm(hour), _calm(hour), _dry(hour))
    if False in needed or _sunny(hour) is False:
        return False
    return None if None in needed else True


def _warm(hour: HourOfWeather) -> bool | None:
    if hour.temperature_c is None:
        return None
    least, most = table.LEAST_FLYING_CELSIUS.value, table.MOST_FLYING_CELSIUS.value
    return least <= hour.temperature_c <= most


def _calm(hour: HourOfWeather) -> bool | None:
    return None if hour.wind_kmh is None else hour.wind_kmh <= table.MOST_FLYING_WIND.value


def _dry(hour: HourOfWeather) -> bool | None:
    return None if hour.rain_mm is None else hour.rain_mm <= table.MOST_FLYING_RAIN.value


def _sunny(hour: HourOfWeather) -> bool | None:
    if hour.sunshine_minutes is not None:
        return hour.sunshine_minutes >= table.LEAST_FLYING_SUN.value
    if hour.cloud_share is not None:
        return hour.cloud_share <= table.MOST_FLYING_CLOUD.value
    return None


class Unfit(StrEnum):
    """Why a unit is not opened."""

    COLD = "cold"
    WINDY = "windy"
    WET = "wet"


def opening_span(day: date, site: Site) -> Span:
    """Give the time of the local date in which units are opened."""
    first, last = table.OPENING_FROM_HOUR.value, table.OPENING_UNTIL_HOUR.value
    return between_solar_hours(day, site, first, last)


def unfit_to_open(hour: HourOfWeather) -> Unfit | None:
    """Tell what forbids opening in an hour; None where nothing that is known does."""
    if hour.rain_mm is not None and hour.rain_mm > table.MOST_OPENING_RAIN.value:
        return Unfit.WET
    if hour.temperature_c is not None and hour.temperature_c < table.LEAST_OPENING_CELSIUS.value:
        return Unfit.COLD
    if hour.wind_kmh is not None and hour.wind_kmh > table.MOST_OPENING_WIND.value:
        return Unfit.WINDY
    return None


def could_open(hour: HourOfWeather) -> bool | None:
    """Tell whether a unit could be opened; None where its temperature is not known."""
    if unfit_to_open(hour) is not None:
        return False
    return None if hour.temperature_c is None else True


def opening_hours(hours: Iterable[HourOfWeather], span: Span) -> float | None:
    """Count the hours of a day fit for opening; None where too little is known."""
    return fit_hours(hours, span, could_open)


def what_forbids(hours: Iterable[HourOfWeather], span: Span) -> Unfit | None:
    """Give what forbids opening for most of a day's hours; None where the day is fit or unknown."""
    told = tuple(hour for hour in hours if span.overlap(hour.at) > 0)
    fit = opening_hours(told, span)
    if fit is None or fit >= table.LEAST_OPENING_HOURS.value:
        return None
    reasons = Counter(reason for hour in told if (reason := unfit_to_open(hour)) is not None)
    return reasons.most_common(1)[0][0]
