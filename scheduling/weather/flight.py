"""On which days, and for how many hours, a queen could fly to mate."""

from collections.abc import Mapping
from datetime import date

from scheduling.trade import table
from scheduling.weather.hour import HourOfWeather, HoursByDay, fit_hours
from scheduling.weather.solar_time import Site, Span, between_solar_hours


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
