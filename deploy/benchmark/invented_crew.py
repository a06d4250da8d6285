"""Crews' seasons to measure with: 300 units in four yards; all of it invented."""

import random
from datetime import UTC, date, datetime, time, timedelta
from types import MappingProxyType

from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName
from scheduling.values import CellAge, Feed, MakeUp, Stores, TrapCount, Value
from scheduling.weather.yard_weather import YardWeather

UNITS = 300
YARDS = 4
FIRST_DAY = date(2027, 4, 20)
SEASON_DAYS = 90

Told = tuple[int, EntryKind, Value | None]

ROUND: tuple[Told, ...] = (
    (-1, EntryKind.MADE_UP, MakeUp(brood_frames=1, sealed_share=0.7, bee_frames=2, food_frames=1)),
    (0, EntryKind.CELL_PLACED, CellAge(days_since_graft=10)),
    (0, EntryKind.TRAP_SET, None),
    (3, EntryKind.EMERGED, None),
    (6, EntryKind.FED, Feed(syrup_litres=0.9, ratio="1:1")),
    (8, EntryKind.TRAP_SERVICED, TrapCount(3)),
    (12, EntryKind.STORES, Stores(0.5)),
)
"""What is told of a unit, by days from the placing of its cell, before the look for eggs."""


def invented_crew(
    seed: int, units: int = UNITS, *, all_different: bool = False
) -> tuple[list[Entry], dict[str, YardWeather]]:
    """Make a crew's log and its yards' weather; every queen is still waited for.

    Cells are placed on any of 40 days, and into half of the units somebody looked for eggs once
    without finding any. The units are stocked and fed alike, or ``all_different``: then no two
    have the same brood, bees, food, syrup or beetles.
    """
    chance = random.Random(seed)  # noqa: S311 - invented, not secret
    log = [entry for number in range(units) for entry in _unit(number, chance, all_different)]
    weather = {f"yard {n}": YardWeather(MappingProxyType(_hours(chance))) for n in range(YARDS)}
    return log, weather


def _unit(number: int, chance: random.Random, all_different: bool) -> list[Entry]:
    box, letter = divmod(number // YARDS, 3)
    place = Place(f"yard {number % YARDS}", UnitName(box + 1, "abc"[letter]))
    start = FIRST_DAY + timedelta(days=chance.randrange(40))
    told = _round_of_its_own(chance) if all_different else [*ROUND]
    if chance.random() < 0.5:
        told.append((chance.randrange(12, 18), EntryKind.NO_EGGS, None))
    return [_entry(f"{number}-{n}", place, start, one) for n, one in enumerate(told)]


def _round_of_its_own(chance: random.Random) -> list[Told]:
    return [(day, kind, _other(value, chance)) for day, kind, value in ROUND]


def _other(value: Value | None, chance: random.Random) -> Value | None:
    """Give another amount of the same, between half as much and half as much again."""
    match value:
        case MakeUp():
            brood, bees = chance.uniform(0.5, 1.5), chance.uniform(1, 3)
            return MakeUp(brood, chance.uniform(0.5, 1), bees, food_frames=chance.uniform(0.5, 1.5))
        case Feed():
            return Feed(syrup_litres=chance.uniform(0.45, 1.35), ratio="1:1")
        case Stores():
            return Stores(chance.uniform(0.25, 0.75))
        case TrapCount():
            return TrapCount(chance.randrange(6))
    return value


def _entry(uid: str, place: Place, start: date, told: Told) -> Entry:
    day, kind, value = start + timedelta(days=told[0]), told[1], told[2]
    return Entry(uid, place, kind, value, day, datetime.combine(day, time(12), UTC), "ida")


def _hours(chance: random.Random) -> dict[date, float]:
    """Hours fit for flying, none on two days of five."""
    days = (FIRST_DAY + timedelta(days=number) for number in range(SEASON_DAYS))
    return {day: max(0.0, chance.uniform(-2, 3)) for day in days}
