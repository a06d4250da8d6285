"""What is known of the flying weather at one yard."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from types import MappingProxyType

from scheduling.values import Flying
from scheduling.weather.day import DayOfWeather


@dataclass(frozen=True)
class YardWeather:
    """Hours fit for mating flights at a yard, by local date.

    Attributes:
        flight_hours: hours fit for mating flights on each date for which there is weather.
        words: the keeper's own word on a date; it overrules the hours.
        measured_to: the last date whose hours were measured rather than forecast; None for none.
        days: each date's weather as it matters for opening, heat and beetles.

    """

    flight_hours: Mapping[date, float] = field(default_factory=lambda: MappingProxyType({}))
    words: Mapping[date, Flying] = field(default_factory=lambda: MappingProxyType({}))
    measured_to: date | None = None
    days: Mapping[date, DayOfWeather] = field(default_factory=lambda: MappingProxyType({}))

    def share(self, day: date, enough_hours: float) -> float:
        """How much of a mating day the date was, from 0 (none could fly) to 1.

        ``enough_hours`` is how many fit hours make a whole mating day. A date of which nothing is
        known counts as a whole one, since the published calendars are of good weather.
        """
        word = self.words.get(day)
        if word is not None:
            return 1.0 if word is Flying.FLYING else 0.0
        hours = self.flight_hours.get(day)
        return 1.0 if hours is None else min(1.0, hours / enough_hours)


NO_WEATHER = YardWeather()
"""Nothing is known: every day counts as a mating day."""
