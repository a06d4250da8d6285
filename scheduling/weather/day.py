"""A day's weather, as far as it matters for opening, for heat and for beetles."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from scheduling.weather.heat import fahrenheit, heat_index_f
from scheduling.weather.hour import HourOfWeather
from scheduling.weather.opening import Unfit, opening_hours, opening_span, what_forbids
from scheduling.weather.share import HoursByDay, by_day
from scheduling.weather.solar_time import Site, Span


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


def days_of_weather(hours: Iterable[HourOfWeather], site: Site) -> Mapping[date, DayOfWeather]:
    """Sum up hours by local date."""
    return sums_of(by_day(hours, site.zone), site)


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
