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
    """The weather of each yard; what was once worked out is kept."""

    weather: Mapping[str, YardWeather]
    _spans: dict[tuple[str, date, int], Span] = field(default_factory=dict)
    _shares: dict[str, dict[int, float]] = field(default_factory=dict)

    def span(self, yard: str, first: date, kept_in: int) -> Span:
        """Give the weather from ``first`` on; on the first ``kept_in`` days nobody can fly."""
        key = (yard, first, kept_in)
        if key not in self._spans:
            if yard not in self._shares:
                self._shares[yard] = _shares(self.weather.get(yard, NO_WEATHER))
            self._spans[key] = _span(self._shares[yard], first, kept_in)
        return self._spans[key]


def _shares(weather: YardWeather) -> dict[int, float]:
    """Give how much of a mating day each day is of which something is known, by its ordinal."""
    known = weather.flight_hours.keys() | weather.words.keys()
    enough = table.WHOLE_MATING_DAY.value
    return {day.toordinal(): weather.share(day, enough) for day in known}


def _span(shares: dict[int, float], first: date, kept_in: int) -> Span:
    days = range(first.toordinal(), first.toordinal() + DAYS)
    flying = [shares.get(day, 1.0) for day in days]
    old_enough = max(kept_in, int(table.MATURE_FROM_EMERGENCE.low))
    later = zip(days[old_enough:], flying[old_enough:], strict=True)
    return Span(
        flying=(0.0,) * kept_in + tuple(flying[kept_in:]),
        grounded=tuple([date.fromordinal(day) for day, share in later if share < POOR]),
        known=not shares.keys().isdisjoint(days[old_enough:]),
    )
