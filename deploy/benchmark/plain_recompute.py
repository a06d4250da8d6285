"""All checks worked out in the plain way: unit by unit, in loops, with nothing shared or kept."""

from collections.abc import Callable, Mapping

from deploy.benchmark.plain_walk import plain_walk
from scheduling.checks.calendar import checks_of_unit
from scheduling.checks.check import Check
from scheduling.checks.flying_weather import FlyingWeather
from scheduling.checks.forecasts import Queen, queen_of
from scheduling.checks.queen_dates import QueenDates
from scheduling.colony.account import project
from scheduling.entries import Entry, standing
from scheduling.places import Place
from scheduling.trade import table
from scheduling.trade.constant import Window, days_after
from scheduling.units import fold
from scheduling.walk.case import DAYS, Case
from scheduling.walk.forecast import QueenForecast
from scheduling.walk.odds import NEAREST, USUAL, LookDays
from scheduling.weather.yard_weather import NO_WEATHER, YardWeather


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
