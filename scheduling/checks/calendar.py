"""The whole calendar of a crew, worked out anew from its log, unit by unit."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import UTC, date, datetime, time

from scheduling.checks.batch import BatchChecks, checks_of_batches
from scheduling.checks.check import Check, in_order
from scheduling.checks.colonies import colony_of, strength
from scheduling.checks.flying_weather import FlyingWeather
from scheduling.checks.forecasts import QueenForecast, forecast_of
from scheduling.checks.next_round import next_round
from scheduling.checks.queen_dates import QueenDates
from scheduling.checks.queen_looks import brood, emergence, giving_up, laying, release
from scheduling.checks.rests import around_rests, rests
from scheduling.checks.upkeep import beetles, food, traps_by_warmth
from scheduling.entries import Entry, standing
from scheduling.entry_facts import entry_kinds
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName
from scheduling.trade import table
from scheduling.units.effects import fold
from scheduling.units.state import Stage, UnitState
from scheduling.values import CellAge, VirginAge
from scheduling.walk.odds import USUAL, Odds
from scheduling.weather.day import DayOfWeather
from scheduling.weather.yard_weather import NO_WEATHER, YardWeather, days_not_flying, with_words

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
        forecasts: what may be expected of each queen that is waited for.
        left_out: units and batches of which a rule could not be worked out, which stand in none
            of the others, and the name of the error.

    """

    units: Mapping[Place, UnitState]
    checks: Mapping[Place, tuple[Check, ...]]
    forecasts: Mapping[Place, QueenForecast] = field(default_factory=dict)
    left_out: Mapping[Place, str] = field(default_factory=dict)

    def queen(self, place: Place) -> QueenDates:
        """Give the dates of a unit's queen; one of which nothing was told is an empty unit."""
        state = self.units.get(place) or UnitState(place)
        return QueenDates(state, self.forecasts.get(place))


def work_out(
    entries: Iterable[Entry],
    weather: Mapping[str, YardWeather] | None = None,
    odds: Odds = USUAL,
    feeder_litres: float = table.FEEDER.value,
) -> Calendar:
    """Work out the calendar of one crew from its whole log, struck entries and strikes included.

    Args:
        entries: the log.
        weather: what is known of each yard's, by the yard's name; the keeper's own words on a
            day come out of the log and overrule it.
        odds: the chances at which the crew looks and gives up.
        feeder_litres: what one of the feeders holds in which doses of syrup are counted.

    """
    log = standing(entries)
    by_place = told_by_place(log)
    told = {place: tuple(said) for place, said in by_place.items() if place.unit is not None}
    units = work_out_units(told, with_words(weather or {}, log), odds, feeder_litres)
    return with_batches(units, checks_of_batches(by_place, log))


def with_batches(units: Calendar, batches: BatchChecks) -> Calendar:
    """Add the checks of batches to a calendar of units alone."""
    return replace(
        units,
        checks={**units.checks, **batches.checks},
        left_out={**units.left_out, **batches.left_out},
    )


def work_out_units(
    told: Mapping[Place, tuple[Entry, ...]],
    weather: Mapping[str, YardWeather],
    odds: Odds,
    feeder_litres: float,
) -> Calendar:
    """Work out the calendar of units alone; of each its standing entries are told.

    The ``weather`` is that of their yards with the keeper's own words. A unit of which a rule
    fails is left out, and no other.
    """
    grounded = {yard: days_not_flying(known) for yard, known in weather.items()}
    flying, units, checks = FlyingWeather(weather), {}, {}
    forecasts: dict[Place, QueenForecast] = {}
    left_out: dict[Place, str] = {}
    for place, said in told.items():
        days = weather.get(place.yard, NO_WEATHER).days
        try:
            state = fold(place, said, grounded.get(place.yard, ()))
            forecast = forecast_of(state, flying, odds)
            due = checks_of_unit(QueenDates(state, forecast), days, feeder_litres)
        except Exception as error:  # noqa: BLE001 - whatever the rule, and whatever was told
            left_out[place] = type(error).__name__
            continue
        units[place], checks[place] = state, due
        if forecast is not None:
            forecasts[place] = forecast
    return Calendar(units, checks, forecasts, left_out)


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


def _only_place(kind: EntryKind, on: date) -> Place:
    if kind is EntryKind.GRAFTED:
        return Place("yard", batch=on.isoformat())
    return Place("yard", unit=UnitName(1))


NOT_IN_USE = frozenset({Stage.EMPTY, Stage.ENDED})


def checks_of_unit(
    queen: QueenDates, days: Mapping[date, DayOfWeather], feeder_litres: float
) -> tuple[Check, ...]:
    """Work out what is due at a unit and when it rests, earliest first.

    What depends on the answer to an earlier check names it under ``follows``: it is foreseen,
    not due.

    Args:
        queen: what the unit is, and the dates of its queen.
        days: the weather of its yard by local date.
        feeder_litres: what one of the keeper's feeders holds.

    """
    if queen.state.stage in NOT_IN_USE:
        return ()
    looks = _about_the_queen(queen)
    kinds = {check.kind for check in looks}
    others = (*looks, *rests(queen, looks))
    work = [c for c in _about_the_colony(queen, feeder_litres) if c.kind not in kinds]
    looked_on = queen.state.looked_on
    checks = in_order((*others, *around_rests(work, others, looked_on)))
    return traps_by_warmth(checks, days, looked_on) if days else checks


def _about_the_queen(queen: QueenDates) -> tuple[Check, ...]:
    state = queen.state
    return (
        *emergence(state),
        *release(state),
        *laying(queen),
        *giving_up(queen),
        *brood(queen),
        *next_round(state),
    )


def _about_the_colony(queen: QueenDates, feeder_litres: float) -> tuple[Check, ...]:
    colony = colony_of(queen)
    return (
        *food(queen.state, colony, feeder_litres),
        *beetles(queen.state),
        *strength(queen.state, colony.account, queen.expected_eggs),
    )
