"""The whole calendar of a crew, worked out anew from its log."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time

from scheduling.checks.alike_units import alike_units, checks_at, state_at
from scheduling.checks.batch import checks_for_batch
from scheduling.checks.check import Check
from scheduling.checks.prospects import outlooks
from scheduling.checks.queens import is_waited_for
from scheduling.checks.unit import checks_for_units
from scheduling.entries import Entry, standing
from scheduling.entry_facts import entry_kinds
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName
from scheduling.trade import table
from scheduling.trade.window import days_after
from scheduling.units import UnitState, fold
from scheduling.units.rounds import graft_day
from scheduling.values import CellAge, VirginAge
from scheduling.walk.odds import USUAL, Odds
from scheduling.walk.outlook import Outlook
from scheduling.weather.words import days_not_flying, with_words
from scheduling.weather.yard_weather import YardWeather

START_EVENTS = entry_kinds(lambda facts: facts.starts)
"""The kinds of entry that set a clock."""

TOLD_TO_EVERY_UNIT = entry_kinds(lambda facts: facts.every_unit)
"""The kinds that, said of a yard, hold for each of its units."""


@dataclass(frozen=True)
class Calendar:
    """What each unit is, and what is due at each unit and batch.

    Attributes:
        units: every unit that was ever told of.
        checks: the checks and rests of each unit and batch, earliest first.
        chances: what may be expected of each queen that is waited for.

    """

    units: Mapping[Place, UnitState]
    checks: Mapping[Place, tuple[Check, ...]]
    chances: Mapping[Place, Outlook] = field(default_factory=dict)


def work_out(
    entries: Iterable[Entry],
    weather: Mapping[str, YardWeather] | None = None,
    odds: Odds = USUAL,
) -> Calendar:
    """Work out the calendar of one crew from its whole log, struck entries and strikes included.

    ``weather`` is what is known of each yard's, by the yard's name; the keeper's own words on a
    day come out of the log and overrule it.
    """
    log = standing(entries)
    by_place = told_by_place(log)
    told_weather = with_words(weather or {}, log)
    told = {place: tuple(said) for place, said in by_place.items() if place.unit is not None}
    units, checks = units_told(told, told_weather, odds)
    return calendar_of(units, checks | checks_of_batches(by_place, log))


def calendar_of(
    units: Mapping[Place, UnitState], checks: Mapping[Place, tuple[Check, ...]]
) -> Calendar:
    """Put a calendar together, with the chances of the queens that are waited for."""
    chances = {p: state.outlook for p, state in units.items() if state.outlook is not None}
    return Calendar(units, checks, chances)


def units_told(
    told: Mapping[Place, tuple[Entry, ...]], weather: Mapping[str, YardWeather], odds: Odds
) -> tuple[dict[Place, UnitState], dict[Place, tuple[Check, ...]]]:
    """Work out what units are, and their checks; of each unit its standing entries are told.

    The ``weather`` is that of their yards with the keeper's own words.
    """
    alike = alike_units(told)
    each = list(told.items())
    states = _states([each[number] for number in alike.first_of_each_kind()], weather, odds)
    found = list(checks_for_units(states))
    known = list(zip(each, alike.kind_of_each, strict=True))
    units = {place: state_at(place, said, states[kind]) for (place, said), kind in known}
    checks = {place: checks_at(place, found[kind]) for (place, _said), kind in known}
    return units, checks


def timetable(
    kind: EntryKind, on: date, age: CellAge | VirginAge | None = None
) -> tuple[Check, ...]:
    """Work out the checks of one unit or batch of which nothing else is known.

    Raises:
        ValueError: the kind sets no clock, or the age is not one it can have.

    """
    if kind not in START_EVENTS:
        raise ValueError(f"{kind} starts nothing; say one of {', '.join(sorted(START_EVENTS))}")
    place = _only_place(kind, on)
    recorded = datetime.combine(on, time(), tzinfo=UTC)
    entry = Entry("start", place, kind, age, on, recorded, person="nobody")
    return work_out([entry]).checks[place]


def _states(
    told: Sequence[tuple[Place, tuple[Entry, ...]]], weather: Mapping[str, YardWeather], odds: Odds
) -> list[UnitState]:
    """Fold each unit, and add what may be expected of its queen if she is waited for."""
    grounded = {yard: days_not_flying(known) for yard, known in weather.items()}
    states = [fold(place, said, grounded.get(place.yard, ())) for place, said in told]
    waited_for = [number for number, state in enumerate(states) if is_waited_for(state)]
    if not waited_for:
        return states
    found = outlooks([states[number] for number in waited_for], weather, odds)
    for number, outlook in zip(waited_for, found, strict=True):
        states[number] = states[number]._replace(outlook=outlook)
    return states


def told_by_place(log: list[Entry]) -> dict[Place, list[Entry]]:
    """Sort the entries by place; what holds for a whole yard is told to each of its units."""
    by_place: defaultdict[Place, list[Entry]] = defaultdict(list)
    for entry in log:
        by_place[entry.place].append(entry)
    wide = [e for e in log if e.kind in TOLD_TO_EVERY_UNIT and _of_yard(e.place)]
    if wide:
        _tell_each_unit(by_place, wide, log)
    return dict(sorted(by_place.items(), key=lambda item: str(item[0])))


def _of_yard(place: Place) -> bool:
    return place.unit is None and place.batch is None


def _tell_each_unit(
    by_place: dict[Place, list[Entry]], wide: list[Entry], log: list[Entry]
) -> None:
    order = {entry.uid: number for number, entry in enumerate(log)}
    for place, told in by_place.items():
        if place.unit is not None:
            told.extend(entry for entry in wide if entry.place.yard == place.yard)
            told.sort(key=lambda entry: order[entry.uid])


def checks_of_batches(
    by_place: Mapping[Place, list[Entry]], log: list[Entry]
) -> dict[Place, tuple[Check, ...]]:
    """Work out the checks of each batch of grafted cells that was not placed."""
    grafted = {
        place: told
        for place, told in by_place.items()
        if place.unit is None and any(entry.kind is EntryKind.GRAFTED for entry in told)
    }
    if not grafted:
        return {}
    cells = [entry for entry in log if entry.kind is EntryKind.CELL_PLACED]
    placed = frozenset(day for entry in cells for day in _possible_grafts(entry))
    return {place: checks_for_batch(place, told, placed) for place, told in grafted.items()}


def _possible_grafts(cell: Entry) -> tuple[date, ...]:
    """Give the graft day of a cell placed, or every one it may have where its age was not told."""
    if cell.value is not None:
        return (graft_day(cell),)
    ages = range(int(table.RIPE_CELL_AGE.low), int(table.RIPE_CELL_AGE.high) + 1)
    return tuple(days_after(cell.on, -age) for age in ages)


def _only_place(kind: EntryKind, on: date) -> Place:
    if kind is EntryKind.GRAFTED:
        return Place("yard", batch=on.isoformat())
    return Place("yard", unit=UnitName(1))
