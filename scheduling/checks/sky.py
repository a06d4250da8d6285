"""The flying weather of a queen's days, looked up once for all the units of a yard."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from scheduling.trade import table
from scheduling.trade.window import days_after
from scheduling.walk.case import DAYS
from scheduling.weather.yard_weather import NO_WEATHER, YardWeather

POOR = 0.5
"""Under this share of a mating day, the day is told as one without flying weather."""


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


@dataclass
class Sky:
    """The weather of each yard; spans once worked out are kept."""

    weather: Mapping[str, YardWeather]
    _spans: dict[tuple[str, date, int], Span] = field(default_factory=dict)

    def span(self, yard: str, first: date, kept_in: int) -> Span:
        """Give the weather from ``first`` on; on the first ``kept_in`` days nobody can fly."""
        key = (yard, first, kept_in)
        if key not in self._spans:
            self._spans[key] = _span(self.weather.get(yard, NO_WEATHER), first, kept_in)
        return self._spans[key]


def _span(weather: YardWeather, first: date, kept_in: int) -> Span:
    enough = table.WHOLE_MATING_DAY.value
    dates = [days_after(first, number) for number in range(DAYS)]
    flying = [weather.share(day, enough) for day in dates[kept_in:]]
    mature = max(kept_in, int(table.MATURE_FROM_EMERGENCE.low))
    known = [d in weather.words or d in weather.flight_hours for d in dates[mature:]]
    flying = [0.0] * kept_in + flying
    grounded = tuple(dates[n] for n in range(mature, DAYS) if flying[n] < POOR)
    return Span(tuple(flying), grounded, any(known))
