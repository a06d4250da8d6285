"""The whole calendar of a crew, worked out anew from its log."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time

from scheduling.checks.batch import checks_for_batch
from scheduling.checks.check import Check
from scheduling.checks.queens import is_waited_for
from scheduling.checks.unit import checks_for_units
from scheduling.entries import Entry, EntryKind, standing
from scheduling.places import Place, UnitName
from scheduling.trade import table
from scheduling.trade.window import days_after
from scheduling.units import UnitState, fold
from scheduling.units.changed import changed
from scheduling.units.rounds import graft_day
from scheduling.values import CellAge, VirginAge
from scheduling.walk.odds import USUAL, Odds
from scheduling.walk.outlook import Outlook
from scheduling.weather.words import days_not_flying, with_words
from scheduling.weather.yard_weather import YardWeather

START_EVENTS = frozenset(
    {
        EntryKind.MADE_UP,
        EntryKind.GRAFTED,
        EntryKind.CELL_PLACED,
        EntryKind.VIRGIN_PLACED,
        EntryKind.CAGED_QUEEN_PLACED,
        EntryKind.RAISING_OWN,
    }
)
"""The kinds of entry that set a clock."""


TOLD_TO_EVERY_UNIT = frozenset({EntryKind.PUT_OFF, EntryKind.FORAGE_SEEN})
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
    by_place = _by_place(log)
    told_weather = with_words(weather or {}, log)
    grounded = {yard: days_not_flying(known) for yard, known in told_weather.items()}
    folded = {
        place: fold(place, told, grounded.get(place.yard, ()))
        for place, told in by_place.items()
        if place.unit is not None
    }
    chances = _chances(folded, told_weather, odds)
    units = {
        place: changed(state, outlook=chances[place]) if place in chances else state
        for place, state in folded.items()
    }
    checks = dict(zip(units, checks_for_units(units.values()), strict=True))
    return Calendar(units, checks | _batches(by_place, log), chances)


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


def _chances(
    units: Mapping[Place, UnitState], weather: Mapping[str, YardWeather], odds: Odds
) -> dict[Place, Outlook]:
    waited_for = {place: state for place, state in units.items() if is_waited_for(state)}
    if not waited_for:
        return {}
    # Only a crew that waits for a queen needs arrays, and loading them takes longer than the rest.
    from scheduling.checks.prospects import outlooks

    found = zip(waited_for, outlooks(waited_for.values(), weather, odds), strict=True)
    return {place: outlook for place, outlook in found if outlook is not None}


def _by_place(log: list[Entry]) -> dict[Place, list[Entry]]:
    """Sort the entries by place; what holds for a whole yard is told to each of its units."""
    by_place: defaultdict[Place, list[Entry]] = defaultdict(list)
    for entry in log:
        by_place[entry.place].append(entry)
    wide = [entry for entry in log if _holds_for_each_unit(entry)]
    if wide:
        _tell_each_unit(by_place, wide, log)
    return dict(sorted(by_place.items(), key=lambda item: str(item[0])))


def _holds_for_each_unit(entry: Entry) -> bool:
    of_yard = entry.place.unit is None and entry.place.batch is None
    return of_yard and entry.kind in TOLD_TO_EVERY_UNIT


def _tell_each_unit(
    by_place: dict[Place, list[Entry]], wide: list[Entry], log: list[Entry]
) -> None:
    order = {entry.uid: number for number, entry in enumerate(log)}
    for place, told in by_place.items():
        if place.unit is not None:
            told.extend(entry for entry in wide if entry.place.yard == place.yard)
            told.sort(key=lambda entry: order[entry.uid])


def _batches(
    by_place: Mapping[Place, list[Entry]], log: list[Entry]
) -> dict[Place, tuple[Check, ...]]:
    cells = [entry for entry in log if entry.kind is EntryKind.CELL_PLACED]
    placed = frozenset(day for entry in cells for day in _possible_grafts(entry))
    return {
        place: checks_for_batch(place, told, placed)
        for place, told in by_place.items()
        if place.unit is None and any(entry.kind is EntryKind.GRAFTED for entry in told)
    }


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
