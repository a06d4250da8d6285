"""How long it takes to work all checks out anew, beside plainer ways to do it."""

import time
from collections.abc import Callable, Iterable, Mapping

import numpy as np

from deploy.benchmark.invented_crew import UNITS, invented_crew
from deploy.benchmark.job_for_each import job_for_each
from deploy.benchmark.measured import CORES, recomputed
from deploy.benchmark.plain_walk import plain_walk
from scheduling.checks.calendar import work_out
from scheduling.checks.queens import queen_of
from scheduling.checks.sky import Sky
from scheduling.entries import Entry, standing
from scheduling.places import Place
from scheduling.units import UnitState, fold
from scheduling.walk.case import Case
from scheduling.walk.walk import walk
from scheduling.weather.yard_weather import YardWeather

PLAIN = 200
"""Queens walked by the plain loop; its cost is the same for each."""

REPEATS = 5


def recompute(sizes: Iterable[int]) -> None:
    """Measure and print."""
    print(f"All checks of crews of {UNITS} units with weather, on {CORES} cores\n")
    print(f"{'units':>8} {'seconds':>8} {'us a unit':>10} {'checks':>9} {'peak MiB':>9}")
    for units in sizes:
        shares = recomputed(units)
        seconds = max(share.seconds for share in shares)
        checks, peak = sum(s.checks for s in shares), sum(s.peak_mib for s in shares)
        cost = seconds / units * 1e6
        print(f"{units:>8} {seconds:>8.2f} {cost:>10.0f} {checks:>9} {peak:>9.0f}", flush=True)
    print("\nOne crew, one core, best of five\n")
    for name, seconds in _one_crew().items():
        print(f"{name:<52} {seconds * 1e3:>8.1f} ms {seconds / UNITS * 1e6:>8.0f} us a unit")
    print(f"\nThe walk alone, one core\n{_walks()}")


def _one_crew() -> dict[str, float]:
    log, weather = invented_crew(1)
    told, calendar = _by_unit(log), work_out(log, weather)
    cases = _cases(calendar.units.values(), weather)
    checks = [check for found in calendar.checks.values() for check in found]
    return {
        "fold its log": _best(lambda: [fold(place, entries) for place, entries in told.items()]),
        "walk its queens": _best(lambda: walk(cases)),
        "work the whole calendar out": _best(lambda: work_out(log, weather)),
        f"one rule and one job for each of {len(checks)} checks": _best(
            lambda: job_for_each(checks)
        ),
    }


def _walks() -> str:
    """Compare the two walks, and hold them to the same chances first."""
    log, weather = invented_crew(2, 3000)
    cases = _cases(work_out(log, weather).units.values(), weather)
    plain = [plain_walk(case) for case in cases[:PLAIN]]
    if not np.allclose(plain, walk(cases[:PLAIN]).eggs):
        raise ValueError("the plain loop walks elsewhere")
    ours = _best(lambda: walk(cases)) / len(cases)
    loop = _timed(lambda: [plain_walk(case) for case in cases[:PLAIN]]) / PLAIN
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
    sky = Sky(weather)
    return [queen.case for state in states if (queen := queen_of(state, sky)) is not None]


def _best(work: Callable[[], object]) -> float:
    return min(_timed(work) for _ in range(REPEATS))


def _timed(work: Callable[[], object]) -> float:
    began = time.perf_counter()
    work()
    return time.perf_counter() - began
