"""Weather in which a small unit may be opened."""

from collections import Counter
from collections.abc import Iterable
from datetime import date
from enum import StrEnum

from scheduling.trade import table
from scheduling.weather.hour import HourOfWeather, fit_hours
from scheduling.weather.solar_time import Site, Span, between_solar_hours


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
