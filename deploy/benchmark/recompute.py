"""How long it takes to work all checks out anew, beside plainer ways to do it."""

from collections.abc import Callable, Iterable, Mapping
from functools import partial

import numpy as np

from bot.gc_tuning import collect_rarely
from deploy.benchmark.invented_crew import UNITS, invented_crew
from deploy.benchmark.measured import CORES, FIRST_TIMES, Spent, first_time, recomputed, timed
from deploy.benchmark.plain_way import job_for_each, plain_recompute, plain_walk
from scheduling.checks.calendar import Calendar, work_out
from scheduling.checks.flying_weather import FlyingWeather
from scheduling.checks.forecasts import queen_of
from scheduling.entries import Entry, standing
from scheduling.places import Place
from scheduling.units.effects import fold
from scheduling.units.state import UnitState
from scheduling.walk.case import Case
from scheduling.walk.model import walk
from scheduling.weather.yard_weather import YardWeather

PLAIN = 100
"""Units worked out and queens walked in the plain way; its cost is the same for each."""

REPEATS = 5
CREWS = {"stocked and fed alike": False, "no two units alike": True}


def recompute(*sizes: int) -> None:
    """Measure and print, looking for garbage as seldom as the running program does."""
    collect_rarely()
    for name, all_different in CREWS.items():
        print(f"All checks of crews of {UNITS} units with weather, {name}; on {CORES} cores\n")
        _by_size(sizes, all_different)
        print(f"\nOne crew, {name}; one core\n")
        _one_crew(all_different)
        print()
    print(f"The walk alone, one core\n{_walks()}")


def _by_size(sizes: Iterable[int], all_different: bool) -> None:
    print(f"{'units':>8} {'seconds':>8} {'cpu s':>8} {'us a unit':>10} {'checks':>9} {'MiB':>6}")
    for units in sizes:
        shares = recomputed(units, all_different=all_different)
        wall = max(share.spent.wall for share in shares)
        processor = sum(share.spent.processor for share in shares)
        checks, peak = sum(s.checks for s in shares), sum(s.peak_mib for s in shares)
        cost = processor / units * 1e6
        row = f"{units:>8} {wall:>8.2f} {processor:>8.2f} {cost:>10.0f} {checks:>9} {peak:>6.0f}"
        print(row, flush=True)


def _one_crew(all_different: bool) -> None:
    log, weather = invented_crew(1, all_different=all_different)
    told, calendar = _by_unit(log), work_out(log, weather)
    cases = _cases(calendar.units.values(), weather)
    checks = [check for found in calendar.checks.values() for check in found]
    ours = _new_crews(all_different)
    plain = _plain(log, weather, calendar)
    first = first_time(all_different=all_different)
    _line("fold its log", _best(lambda: [fold(place, said) for place, said in told.items()]))
    _line("walk its queens", _best(lambda: [walk(case) for case in cases]))
    _line("work the whole calendar out", ours)
    _line(f"the first calendar of a process; middle of {FIRST_TIMES}", first)
    jobs = timed(lambda: job_for_each(checks))
    _line(f"plain, unit by unit ({PLAIN} of {UNITS} units, reckoned up)", plain, ours)
    _line(f"plain, one rule and one job for each of {len(checks)} checks", jobs, ours)
    both = Spent(plain.wall + jobs.wall, plain.processor + jobs.processor)
    _line("the plain way, both together", both, ours)


def _new_crews(all_different: bool) -> Spent:
    """Time the least of some crews never seen before, of which no walk is cached."""
    crews = [invented_crew(2 + n, all_different=all_different) for n in range(REPEATS)]
    return min((timed(partial(work_out, *crew)) for crew in crews), key=lambda it: it.processor)


def _line(name: str, spent: Spent, ours: Spent | None = None) -> None:
    times = f"  {spent.processor / ours.processor:.0f} times ours" if ours is not None else ""
    wall, processor = spent.wall * 1e3, spent.processor * 1e3
    cost = spent.processor / UNITS * 1e6
    print(f"{name:<52} {wall:>8.1f} ms {processor:>8.1f} cpu ms {cost:>8.0f} us a unit{times}")


def _plain(log: list[Entry], weather: Mapping[str, YardWeather], calendar: Calendar) -> Spent:
    """Time the plain way on some of the units, reckon up to all, and hold it to the same checks."""
    some = set(list(calendar.units)[:PLAIN])
    part = [entry for entry in log if entry.place in some]
    if plain_recompute(part, weather) != {place: calendar.checks[place] for place in some}:
        raise ValueError("the plain way finds other checks")
    spent = timed(lambda: plain_recompute(part, weather))
    return Spent(spent.wall * UNITS / PLAIN, spent.processor * UNITS / PLAIN)


def _walks() -> str:
    """Compare the two walks, and hold them to the same chances first."""
    log, weather = invented_crew(2, 3000)
    cases = _cases(work_out(log, weather).units.values(), weather)
    plain = [plain_walk(case)[0] for case in cases[:PLAIN]]
    if not np.allclose(plain, [walk(case).eggs for case in cases[:PLAIN]]):
        raise ValueError("the plain loop walks elsewhere")
    ours = _best(lambda: [walk(case) for case in cases]).processor / len(cases)
    loop = timed(lambda: [plain_walk(case) for case in cases[:PLAIN]]).processor / PLAIN
    return (
        f"ours {ours * 1e6:.0f} us a queen, a plain loop {loop * 1e6:.0f} us: "
        f"{loop / ours:.0f} times faster"
    )


def _by_unit(log: list[Entry]) -> dict[Place, list[Entry]]:
    told: dict[Place, list[Entry]] = {}
    for entry in standing(log):
        told.setdefault(entry.place, []).append(entry)
    return told


def _cases(states: Iterable[UnitState], weather: Mapping[str, YardWeather]) -> list[Case]:
    flying = FlyingWeather(weather)
    return [queen.case for state in states if (queen := queen_of(state, flying)) is not None]


def _best(work: Callable[[], object]) -> Spent:
    return min((timed(work) for _ in range(REPEATS)), key=lambda spent: spent.processor)
