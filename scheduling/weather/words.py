"""The keeper's own word on the weather, out of the log."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date

from scheduling.entries import Entry
from scheduling.values import DayWeather, Flying
from scheduling.weather.yard_weather import NO_WEATHER, YardWeather


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
