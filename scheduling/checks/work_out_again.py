"""A calendar worked out after another: units of which nothing new was told keep what they had."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from operator import attrgetter

from scheduling.checks.batch import checks_of_batches
from scheduling.checks.calendar import (
    TOLD_TO_EVERY_UNIT,
    Calendar,
    told_by_place,
    with_batches,
    work_out_units,
)
from scheduling.entries import Entry, standing, struck
from scheduling.entry_facts import entry_kinds
from scheduling.places import Place
from scheduling.trade import table
from scheduling.walk.odds import USUAL, Odds
from scheduling.weather.yard_weather import YardWeather, with_words

Told = Mapping[Place, tuple[Entry, ...]]

_BEARS_ON_OTHERS = entry_kinds(lambda facts: facts.bears_on_others)
_ORDER = attrgetter("on", "recorded_at")


@dataclass(frozen=True)
class WorkedOut:
    """A calendar, and all that it was worked out from.

    Attributes:
        log: the whole log.
        known_weather: what was known of each yard's weather, without the keeper's own words.
        odds: the crew's odds.
        feeder_litres: what a feeder holds in which doses are counted.
        struck: uids of the entries that do not count.
        told: the standing entries about each unit, those of its whole yard among them.
        weather: each yard's weather, with the keeper's own words.
        calendar: the calendar.

    """

    log: tuple[Entry, ...]
    known_weather: Mapping[str, YardWeather]
    odds: Odds
    feeder_litres: float
    struck: frozenset[str]
    told: Told
    weather: Mapping[str, YardWeather]
    calendar: Calendar


def work_out_again(
    before: WorkedOut | None,
    entries: Iterable[Entry],
    weather: Mapping[str, YardWeather] | None = None,
    odds: Odds = USUAL,
    feeder_litres: float = table.FEEDER.value,
) -> WorkedOut:
    """Work out what ``work_out`` gives, sooner if ``before`` came of nearly the same.

    ``before`` may be of any log: what it holds of a unit is used only where what was told of the
    unit, the weather there and the odds are the same.
    """
    log, known_weather = tuple(entries), weather or {}
    rules = known_weather, odds, feeder_litres
    if before is None or (before.known_weather, before.odds, before.feeder_litres) != rules:
        before = None
    if before is not None and before.log == log:
        return before
    added = None if before is None else _only_added(before, log)
    if before is not None and added is not None:
        return _with_added(before, log, added)
    return _with_changed(before, log, *rules)


def _only_added(before: WorkedOut, log: tuple[Entry, ...]) -> list[Entry] | None:
    """Give what was added if it bears on its own units alone; None for anything else."""
    if log[: len(before.log)] != before.log:
        return None
    added = list(log[len(before.log) :])
    plain = all(entry.kind not in _BEARS_ON_OTHERS or _of_known_unit(entry) for entry in added)
    known = all(entry.place in before.told and entry.uid not in before.struck for entry in added)
    return added if plain and known else None


def _of_known_unit(entry: Entry) -> bool:
    return entry.kind in TOLD_TO_EVERY_UNIT and entry.place.unit is not None


def _with_added(before: WorkedOut, log: tuple[Entry, ...], added: list[Entry]) -> WorkedOut:
    """Work out the units anew that were spoken of."""
    new: dict[Place, list[Entry]] = {}
    for entry in added:
        new.setdefault(entry.place, [*before.told[entry.place]]).append(entry)
    # Sorting keeps what is equal in its order, and what was added was written later.
    told = {place: tuple(sorted(said, key=_ORDER)) for place, said in new.items()}
    anew = work_out_units(told, before.weather, before.odds, before.feeder_litres)
    calendar = _with_units(before.calendar, anew)
    return replace(before, log=log, told={**before.told, **told}, calendar=calendar)


def _with_units(before: Calendar, anew: Calendar) -> Calendar:
    """Put units that were worked out anew into a calendar."""
    looked_at = anew.units.keys() | anew.left_out.keys()
    kept = {place: of for place, of in before.forecasts.items() if place not in looked_at}
    left_out = {place: why for place, why in before.left_out.items() if place not in looked_at}
    units, checks = {**before.units, **anew.units}, {**before.checks, **anew.checks}
    for place in anew.left_out.keys() & units.keys():
        del units[place], checks[place]
    return Calendar(units, checks, {**kept, **anew.forecasts}, {**left_out, **anew.left_out})


def _with_changed(
    before: WorkedOut | None,
    log: tuple[Entry, ...],
    known_weather: Mapping[str, YardWeather],
    odds: Odds,
    feeder_litres: float,
) -> WorkedOut:
    """Sort the whole log anew, and work out the units of which it says something else."""
    stands = standing(log)
    by_place, weather = told_by_place(stands), with_words(known_weather, stands)
    told = {place: tuple(said) for place, said in by_place.items() if place.unit is not None}
    same = set() if before is None else _same(before, told, weather)
    others = {place: said for place, said in told.items() if place not in same}
    calendar = work_out_units(others, weather, odds, feeder_litres)
    if before is not None:
        calendar = _in_place_of(before.calendar, calendar, told)
    calendar = with_batches(calendar, checks_of_batches(by_place, stands))
    rules = known_weather, odds, feeder_litres
    return WorkedOut(log, *rules, struck(log), told, weather, calendar)


def _in_place_of(before: Calendar, anew: Calendar, told: Told) -> Calendar:
    """Give the calendar of the units told of, those not worked out anew as they were before."""
    both = _with_units(before, anew)
    worked_out = [place for place in told if place not in both.left_out]
    return Calendar(
        {place: both.units[place] for place in worked_out},
        {place: both.checks[place] for place in worked_out},
        {place: of for place, of in both.forecasts.items() if place in told},
        {place: why for place, why in both.left_out.items() if place in told},
    )


def _same(before: WorkedOut, told: Told, weather: Mapping[str, YardWeather]) -> set[Place]:
    """Find the units of which the same is told as before, under the same weather."""
    yards = {place.yard for place in told}
    fair = {yard for yard in yards if before.weather.get(yard) == weather.get(yard)}
    found = {place for place, said in told.items() if before.told.get(place) == said}
    return {place for place in found if place.yard in fair}
