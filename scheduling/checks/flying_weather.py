"""The flying weather of a queen's days, looked up once for all the units of a yard."""

from bisect import bisect_left
from collections.abc import Mapping, Sequence
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


class _Shares:
    """How much of a mating day each day at a yard is; days stand as their ordinals."""

    def __init__(self, weather: YardWeather) -> None:
        enough = table.WHOLE_MATING_DAY.value
        self._known = sorted(weather.flight_hours.keys() | weather.words.keys())
        shares = [weather.share(day, enough) for day in self._known]
        self._poor = [day for day, share in zip(self._known, shares, strict=True) if share < POOR]
        self._first = self._known[0].toordinal() if self._known else 0
        last = self._known[-1].toordinal() if self._known else -1
        self._by_day = [1.0] * (last + 1 - self._first)
        for day, share in zip(self._known, shares, strict=True):
            self._by_day[day.toordinal() - self._first] = share

    def of_days(self, start: int, end: int) -> tuple[float, ...]:
        """Give the share of each day; one of which nothing is known is a whole mating day."""
        before = max(0, min(self._first, end) - start)
        known = self._by_day[max(0, start - self._first) : max(0, end - self._first)]
        return (1.0,) * before + tuple(known) + (1.0,) * (end - start - before - len(known))

    def poor_days(self, start: int, end: int) -> tuple[date, ...]:
        """Give the dates without flying weather, oldest first."""
        return tuple(_between(self._poor, start, end))

    def any_known(self, start: int, end: int) -> bool:
        """Tell whether anything is known of these days."""
        return bool(_between(self._known, start, end))


def _between(days: Sequence[date], start: int, end: int) -> Sequence[date]:
    first, after = date.fromordinal(start), date.fromordinal(end)
    return days[bisect_left(days, first) : bisect_left(days, after)]


@dataclass
class FlyingWeather:
    """The weather of each yard; what was once worked out is kept."""

    weather: Mapping[str, YardWeather]
    _spans: dict[tuple[str, date, int], FlyingSpan] = field(default_factory=dict)
    _shares: dict[str, _Shares] = field(default_factory=dict)

    def span(self, yard: str, first: date, kept_in: int) -> FlyingSpan:
        """Give the weather from ``first`` on; on the first ``kept_in`` days nobody can fly."""
        key = (yard, first, kept_in)
        span = self._spans.get(key)
        if span is None:
            span = self._spans[key] = _span(self._of_yard(yard), first, kept_in)
        return span

    def _of_yard(self, yard: str) -> _Shares:
        if yard not in self._shares:
            self._shares[yard] = _Shares(self.weather.get(yard, NO_WEATHER))
        return self._shares[yard]


def _span(shares: _Shares, first: date, kept_in: int) -> FlyingSpan:
    start, end = first.toordinal(), first.toordinal() + DAYS
    old_enough = start + max(kept_in, int(table.MATURE_FROM_EMERGENCE.low))
    return FlyingSpan(
        flying=(0.0,) * kept_in + shares.of_days(start + kept_in, end),
        grounded=shares.poor_days(old_enough, end),
        known=shares.any_known(old_enough, end),
    )
