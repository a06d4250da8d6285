"""Hours of weather as days to be kept, and the version of the figures that they were made with."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cache
from hashlib import sha256

from scheduling.trade import table
from scheduling.trade.constant import Constant
from scheduling.weather.day import DayOfWeather, sums_of
from scheduling.weather.flight import flight_hours_of
from scheduling.weather.hour import HourOfWeather
from scheduling.weather.share import by_day
from scheduling.weather.solar_time import Site

RULES = 1
"""Raised whenever a change of the code, and not of a figure, makes other days of the same hours."""


@dataclass(frozen=True)
class KeptDay:
    """One local date at a yard.

    Attributes:
        flight_hours: hours fit for mating flights; None where too little is known.
        measured: all that is known of the date had gone by when it was asked for.
        weather: the date's weather as it matters for opening, heat and beetles.

    """

    flight_hours: float | None
    measured: bool
    weather: DayOfWeather


def days_to_keep(
    measured: Sequence[HourOfWeather], forecast: Sequence[HourOfWeather], site: Site
) -> Mapping[date, KeptDay]:
    """Sum up hours by local date, oldest first."""
    days = by_day([*measured, *forecast], site.zone)
    not_over = by_day(forecast, site.zone).keys()
    flight_hours = flight_hours_of(days, site)
    return {
        day: KeptDay(flight_hours.get(day), day not in not_over, weather)
        for day, weather in sums_of(days, site).items()
    }


@cache
def figures_version() -> str:
    """Name the figures and rules by which hours become days; another name asks for other days.

    It is a hash of every figure of the trade, so that none can be forgotten here.
    """
    figures = sorted(
        (name, known.value) for name, known in vars(table).items() if isinstance(known, Constant)
    )
    return sha256(repr((RULES, figures)).encode()).hexdigest()[:16]
