"""What is known of the weather at one yard, the keeper's own word included, and what it asks."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from types import MappingProxyType

from scheduling.entries import Entry
from scheduling.trade import table
from scheduling.values import DayWeather, Flying
from scheduling.weather.day import DayOfWeather
from scheduling.weather.heat import ColonyHeat, HeatBand, colony_heat, heat_band


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

    def share(self, day: date) -> float:
        """How much of a mating day the date was, from 0 (none could fly) to 1.

        A date of which nothing is known counts as a whole one, since the published calendars are
        of good weather.
        """
        word = self.words.get(day)
        if word is not None:
            return 1.0 if word is Flying.FLYING else 0.0
        hours = self.flight_hours.get(day)
        return 1.0 if hours is None else min(1.0, hours / table.WHOLE_MATING_DAY.value)


NO_WEATHER = YardWeather()
"""Nothing is known: every day counts as a mating day."""


def with_words(weather: Mapping[str, YardWeather], log: Iterable[Entry]) -> dict[str, YardWeather]:
    """Add to each yard's weather what the log says of its days; a later word on a day counts.

    ``log`` are standing entries in the order they happened.
    """
    words: dict[str, dict[date, Flying]] = defaultdict(dict)
    for entry in log:
        if isinstance(entry.value, DayWeather):
            words[entry.place.yard][entry.on] = entry.value.flying
    told = dict(weather)
    for yard, said in words.items():
        known = told.get(yard, NO_WEATHER)
        told[yard] = replace(known, words={**known.words, **said})
    return told


def days_not_flying(weather: YardWeather) -> tuple[date, ...]:
    """Give the days on which, by the keeper's word, no queen could fly, oldest first."""
    said = (day for day, word in weather.words.items() if word is Flying.NOT_FLYING)
    return tuple(sorted(said))


@dataclass(frozen=True)
class Warnings:
    """What is to be said of the weather.

    Attributes:
        colonies: what the heat asks for at the colonies.
        keeper: how hard the heat is on the keeper.
        warmest_c: the day's highest temperature; None where it is not known.
        heat_index_f: the day's highest heat index; None where it is not known.
        flight_hours: hours fit for mating flights that day; None where they are not known.
        none_since: the last date that was measured, where that is long ago; else None.
    """

    colonies: ColonyHeat = ColonyHeat.NONE
    keeper: HeatBand = HeatBand.NONE
    warmest_c: float | None = None
    heat_index_f: float | None = None
    flight_hours: float | None = None
    none_since: date | None = None


NO_WARNINGS = Warnings()
"""Nothing is to be said, for nothing is known."""


def warnings_on(day: date, weather: YardWeather) -> Warnings:
    """Work out what is to be said of a yard's weather on a local date.

    The keeper's own word on the day takes the place of the hours counted.
    """
    known = weather.days.get(day)
    warmest = known.warmest_c if known is not None else None
    index = known.heat_index_f if known is not None else None
    return Warnings(
        colonies=colony_heat(warmest) if warmest is not None else ColonyHeat.NONE,
        keeper=heat_band(index) if index is not None else HeatBand.NONE,
        warmest_c=warmest,
        heat_index_f=index,
        flight_hours=None if day in weather.words else weather.flight_hours.get(day),
        none_since=_none_since(day, weather),
    )


def _none_since(day: date, weather: YardWeather) -> date | None:
    last = weather.measured_to
    if last is None or table.WEATHER_STALE.after(last) >= day:
        return None
    return last
