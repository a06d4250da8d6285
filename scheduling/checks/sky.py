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


class _Days(dict[date, _Day]):
    """The days of one yard, each worked out when it is first asked for."""

    def __init__(self, weather: YardWeather) -> None:
        super().__init__()
        self._weather = weather

    def __missing__(self, day: date) -> _Day:
        told = day in self._weather.words or day in self._weather.flight_hours
        self[day] = day, self._weather.share(day, table.WHOLE_MATING_DAY.value), told
        return self[day]


@dataclass
class Sky:
    """The weather of each yard; days and spans once worked out are kept."""

    weather: Mapping[str, YardWeather]
    _spans: dict[tuple[str, date, int], Span] = field(default_factory=dict)
    _days: dict[str, _Days] = field(default_factory=dict)

    def span(self, yard: str, first: date, kept_in: int) -> Span:
        """Give the weather from ``first`` on; on the first ``kept_in`` days nobody can fly."""
        key = (yard, first, kept_in)
        if key not in self._spans:
            self._spans[key] = self._span(yard, first, kept_in)
        return self._spans[key]

    def _span(self, yard: str, first: date, kept_in: int) -> Span:
        if yard not in self._days:
            self._days[yard] = _Days(self.weather.get(yard, NO_WEATHER))
        known = self._days[yard]
        dates, shares, told = zip(*[known[first + later] for later in _EACH_DAY], strict=True)
        old_enough = max(kept_in, int(table.MATURE_FROM_EMERGENCE.low))
        later = zip(dates[old_enough:], shares[old_enough:], strict=True)
        return Span(
            flying=(0.0,) * kept_in + shares[kept_in:],
            grounded=tuple([day for day, share in later if share < POOR]),
            known=any(told[old_enough:]),
        )
