"""The plain ways: a queen, a day and a state at a time; a rule and a job for each check."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from datetime import datetime, time

from apscheduler.schedulers.background import BackgroundScheduler
from dateutil.rrule import DAILY, rrule, rruleset

from scheduling.checks.calendar import checks_of_unit
from scheduling.checks.check import Check
from scheduling.checks.flying_weather import FlyingWeather
from scheduling.checks.forecasts import Queen, QueenForecast, queen_of
from scheduling.checks.queen_dates import QueenDates
from scheduling.colony.account import project
from scheduling.entries import Entry, standing
from scheduling.places import Place
from scheduling.trade import table
from scheduling.trade.constant import Window, days_after
from scheduling.units.effects import fold
from scheduling.walk.case import DAYS, FAILED, Case, State, likelihoods
from scheduling.walk.odds import NEAREST, USUAL, LookDays
from scheduling.walk.stages import PUBLISHED
from scheduling.weather.yard_weather import NO_WEATHER, YardWeather

Where = tuple[State, int, int]
"""The state, the day of emergence, and the day on which the stage ends (or -1)."""


def plain_walk(case: Case) -> tuple[list[float], list[float]]:
    """Give one queen's chance of eggs, and her chance to have failed, by day."""
    stages = PUBLISHED
    emerge = stages.emerge if case.from_cell else 1.0
    now: dict[Where, float] = {
        (State.SEALED, day, day): chance * emerge
        for day, chance in enumerate(case.emergence.chances)
    }
    now[State.DUD, -1, -1] = 1 - emerge
    seen = defaultdict(list)
    for day, sight in case.seen:
        seen[day].append(likelihoods(sight, stages))
    eggs, failed = [], []
    for day in range(DAYS):
        now = _next(now, day, case.flying[day])
        for likelihood in seen[day]:
            now = {where: chance * likelihood[where[0]] for where, chance in now.items()}
            whole = sum(now.values())
            now = {where: chance / whole for where, chance in now.items()}
        eggs.append(sum(chance for where, chance in now.items() if where[0] is State.LAYING))
        failed.append(sum(chance for where, chance in now.items() if where[0] in FAILED))
    return eggs, failed


def _next(now: dict[Where, float], day: int, flying: float) -> dict[Where, float]:
    after: dict[Where, float] = defaultdict(float)
    mates = 1 - (1 - PUBLISHED.flight_chance) ** flying
    for (state, emerged, ends), chance in now.items():
        left = chance
        if state in (State.MATURING, State.WAITING, State.MATED):
            left = chance * (1 - PUBLISHED.lost_a_day)
            after[State.LOST, -1, -1] += chance - left
        if state is State.SEALED and ends == day:
            _emerge(after, day, left)
        elif (state is State.MATURING and ends == day) or state is State.WAITING:
            _wait(after, emerged, day, left, mates)
        elif state is State.MATED and ends == day:
            after[State.LAYING, -1, -1] += left
        else:
            after[state, emerged, ends] += left
    return after


def _emerge(after: dict[Where, float], day: int, chance: float) -> None:
    for nth, share in enumerate(PUBLISHED.maturing.chances):
        after[State.MATURING, day, day + PUBLISHED.maturing.first + nth] += chance * share


def _wait(after: dict[Where, float], emerged: int, day: int, chance: float, mates: float) -> None:
    age = day - emerged
    home = chance * mates * PUBLISHED.back
    well = home * PUBLISHED.mates_well(age)
    after[State.LOST, -1, -1] += chance * mates - home
    after[State.UNMATED, -1, -1] += home - well
    still = State.UNMATED if age >= PUBLISHED.mates_until else State.WAITING
    where = (still, -1, -1) if still is State.UNMATED else (still, emerged, -1)
    after[where] += chance * (1 - mates)
    for nth, share in enumerate(PUBLISHED.to_first_egg.chances):
        after[State.MATED, -1, day + PUBLISHED.to_first_egg.first + nth] += well * share


def plain_recompute(
    log: list[Entry], weather: Mapping[str, YardWeather]
) -> dict[Place, tuple[Check, ...]]:
    """Work out the checks of each unit by itself.

    Each queen is walked by a plain loop, in her yard's weather and in fair weather; bees and food
    are reckoned day by day in plain Python. The rules are those of the program.
    """
    by_unit: dict[Place, list[Entry]] = {}
    for entry in standing(log):
        by_unit.setdefault(entry.place, []).append(entry)
    return {place: _checks(place, told, weather) for place, told in by_unit.items()}


def _checks(
    place: Place, told: list[Entry], weather: Mapping[str, YardWeather]
) -> tuple[Check, ...]:
    project.cache_clear()
    state = fold(place, told)
    queen = queen_of(state, FlyingWeather(weather))
    forecast = _forecast(queen) if queen is not None else None
    days = weather.get(place.yard, NO_WEATHER).days
    return checks_of_unit(QueenDates(state, forecast), days, table.FEEDER.value)


def _forecast(queen: Queen) -> QueenForecast:
    eggs, failed, found = _walked(queen.case)
    _eggs, _failed, fair = _walked(queen.fair)
    return QueenForecast(
        queen.first,
        [],
        [],
        eggs,
        failed,
        look=_window(queen, found),
        fair_look=_window(queen, fair),
        give_up=days_after(queen.first, found.give_up),
        grounded=queen.grounded,
        weather_known=queen.weather_known,
    )


def _window(queen: Queen, found: LookDays) -> Window:
    not_before, best, latest = found.not_before, found.best, found.latest
    return Window(*(days_after(queen.first, day) for day in (not_before, best, latest)))


def _walked(case: Case) -> tuple[list[float], list[float], LookDays]:
    eggs, failed = plain_walk(case)
    ahead = range(case.seen[-1][0] + 1 if case.seen else 0, DAYS)

    def first(holds: Callable[[int], bool]) -> int:
        return next((day for day in ahead if holds(day)), DAYS - 1)

    def eggs_at(odd: float) -> int:
        return first(lambda day: eggs[day] >= (odd - NEAREST) * (1 - failed[day]))

    def hopeless(day: int) -> bool:
        return eggs[day] > 0 and eggs[-1] - eggs[day] < USUAL.give_up * (1 - eggs[day])

    looks = eggs_at(USUAL.not_before), eggs_at(USUAL.best), eggs_at(USUAL.latest)
    return eggs, failed, LookDays(*looks, first(hopeless))


def job_for_each(checks: Iterable[Check]) -> int:
    """Make a rule and a job of every check and give their number; the scheduler never starts."""
    scheduler = BackgroundScheduler(timezone="UTC")
    number = 0
    for check in checks:
        first = datetime.combine(check.not_before, time(6, 30))
        last = datetime.combine(check.by or check.best or check.not_before, time(6, 30))
        rules = rruleset()
        rules.rrule(rrule(DAILY, dtstart=first, until=last))
        scheduler.add_job(print, "date", run_date=rules[0], id=f"{number}")
        number += 1
    return number
