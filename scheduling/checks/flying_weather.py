"""The flying weather of a queen's days, looked up once for all the units of a yard."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from scheduling.trade import table
from scheduling.walk.case import DAYS
from scheduling.weather.yard_weather import NO_WEATHER, YardWeather

POOR = 0.5
"""Under this share of a mating day, the day is told as one without flying weather."""


@dataclass(frozen=True)
class FlyingSpan:
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
class FlyingWeather:
    """The weather of each yard; what was once worked out is kept, since many queens share it."""

    weather: Mapping[str, YardWeather]
    _spans: dict[tuple[str, date, int], FlyingSpan] = field(default_factory=dict)
    _shares: dict[str, dict[int, float]] = field(default_factory=dict)

    def span(self, yard: str, first: date, kept_in: int) -> FlyingSpan:
        """Give the weather from ``first`` on; on the first ``kept_in`` days nobody can fly."""
        key = (yard, first, kept_in)
        span = self._spans.get(key)
        if span is None:
            span = self._spans[key] = _span(self._of_yard(yard), first, kept_in)
        return span

    def _of_yard(self, yard: str) -> dict[int, float]:
        """Give how much of a mating day each day, by its ordinal, is of which anything is known."""
        if yard not in self._shares:
            weather = self.weather.get(yard, NO_WEATHER)
            known = weather.flight_hours.keys() | weather.words.keys()
            self._shares[yard] = {day.toordinal(): weather.share(day) for day in known}
        return self._shares[yard]


def _span(shares: Mapping[int, float], first: date, kept_in: int) -> FlyingSpan:
    start, end = first.toordinal(), first.toordinal() + DAYS
    old_enough = start + max(kept_in, int(table.MATURE_FROM_EMERGENCE.low))
    known = [day for day in range(old_enough, end) if day in shares]
    # A day of which nothing is known is a whole mating day.
    flying = [shares.get(day, 1.0) for day in range(start + kept_in, end)]
    return FlyingSpan(
        flying=(0.0,) * kept_in + tuple(flying),
        grounded=tuple([date.fromordinal(day) for day in known if shares[day] < POOR]),
        known=bool(known),
    )
