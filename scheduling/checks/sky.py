"""The flying weather of a queen's days, looked up once for all the units of a yard."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta

from scheduling.trade import table
from scheduling.walk.case import DAYS
from scheduling.weather.yard_weather import NO_WEATHER, YardWeather

POOR = 0.5
"""Under this share of a mating day, the day is told as one without flying weather."""

_EACH_DAY = tuple(timedelta(days=number) for number in range(DAYS))


@dataclass(frozen=True)
class Span:
    """The weather of the days of one walk.

    Attributes:
        flying: how much of a mating day each day is.
        grounded: the days without flying weather on which a queen may be old enough to fly.
        known: whether anything is known of the weather on those days.

    """

    flying: tuple[float, ...]
    grounded: tuple[date, ...] = ()
    known: bool = False


_Day = tuple[date, float, bool]
"""A date, how much of a mating day it is, and whether that is known."""


@dataclass
class Sky:
    """The weather of each yard; days and spans once worked out are kept."""

    weather: Mapping[str, YardWeather]
    _spans: dict[tuple[str, date, int], Span] = field(default_factory=dict)
    _days: dict[str, dict[date, _Day]] = field(default_factory=dict)

    def span(self, yard: str, first: date, kept_in: int) -> Span:
        """Give the weather from ``first`` on; on the first ``kept_in`` days nobody can fly."""
        key = (yard, first, kept_in)
        if key not in self._spans:
            self._spans[key] = _span(self._days_from(yard, first), kept_in)
        return self._spans[key]

    def _days_from(self, yard: str, first: date) -> list[_Day]:
        weather, known = self.weather.get(yard, NO_WEATHER), self._days.setdefault(yard, {})
        days = []
        for later in _EACH_DAY:
            day = first + later
            if day not in known:
                known[day] = _day(weather, day)
            days.append(known[day])
        return days


def _day(weather: YardWeather, day: date) -> _Day:
    told = day in weather.words or day in weather.flight_hours
    return day, weather.share(day, table.WHOLE_MATING_DAY.value), told


def _span(days: list[_Day], kept_in: int) -> Span:
    flying = (0.0,) * kept_in + tuple(share for _day, share, _known in days[kept_in:])
    old_enough = days[max(kept_in, int(table.MATURE_FROM_EMERGENCE.low)) :]
    grounded = tuple(day for day, share, _known in old_enough if share < POOR)
    return Span(flying, grounded, any(known for _day, _share, known in old_enough))
