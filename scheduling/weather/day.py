"""A day's weather as it matters for opening, heat and beetles, and days to be kept."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cache
from hashlib import sha256

from scheduling.trade import table
from scheduling.trade.constant import Constant
from scheduling.weather.fit_hours import (
    Unfit,
    flight_hours_of,
    opening_hours,
    opening_span,
    what_forbids,
)
from scheduling.weather.heat import fahrenheit, heat_index_f
from scheduling.weather.hour import HourOfWeather, HoursByDay, Site, Span, by_day


@dataclass(frozen=True)
class DayOfWeather:
    """The weather of one local date; what is not known is None.

    Attributes:
        warmest_c: highest temperature of the day.
        mean_c: mean temperature of the hours that are known.
        opening_hours: hours fit for opening a unit.
        unfit: what forbids opening; None on a fit day and where it is not known.
        heat_index_f: highest heat index while units are opened, degrees Fahrenheit.
    """

    warmest_c: float | None = None
    mean_c: float | None = None
    opening_hours: float | None = None
    unfit: Unfit | None = None
    heat_index_f: float | None = None


def sums_of(days: HoursByDay, site: Site) -> Mapping[date, DayOfWeather]:
    """Sum up hours that are sorted by local date."""
    return {day: _summed(told, opening_span(day, site)) for day, told in days.items()}


def _summed(hours: tuple[HourOfWeather, ...], span: Span) -> DayOfWeather:
    told = [hour.temperature_c for hour in hours if hour.temperature_c is not None]
    return DayOfWeather(
        warmest_c=max(told, default=None),
        mean_c=sum(told) / len(told) if told else None,
        opening_hours=opening_hours(hours, span),
        unfit=what_forbids(hours, span),
        heat_index_f=max(_heat_indices(hours, span), default=None),
    )


def _heat_indices(hours: Iterable[HourOfWeather], span: Span) -> list[float]:
    return [
        heat_index_f(fahrenheit(hour.temperature_c), hour.humidity_percent)
        for hour in hours
        if span.overlap(hour.at) > 0
        and hour.temperature_c is not None
        and hour.humidity_percent is not None
    ]


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
