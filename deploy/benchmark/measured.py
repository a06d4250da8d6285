"""Running one measurement in processes of their own, one to a core."""

import resource
import time
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from multiprocessing import get_context

from deploy.benchmark.invented_crew import UNITS, invented_crew
from scheduling.checks.calendar import work_out

CORES = 2


@dataclass(frozen=True)
class Recomputed:
    """What one process measured.

    Attributes:
        seconds: time spent in working out calendars, not in inventing the crews.
        checks: how many checks came of it.
        peak_mib: the most memory that the process ever held, everything included.

    """

    seconds: float
    checks: int
    peak_mib: float


def recomputed(units: int) -> list[Recomputed]:
    """Work out the calendars of so many units, crew by crew, on two cores."""
    crews = max(1, round(units / UNITS))
    shares = [range(core, crews, CORES) for core in range(min(CORES, crews))]
    with ProcessPoolExecutor(CORES, mp_context=get_context("spawn")) as pool:
        return list(pool.map(_share, shares, [units / crews] * len(shares)))


def _share(seeds: range, units: float) -> Recomputed:
    work_out(*invented_crew(0, 3))
    seconds, checks = 0.0, 0
    for seed in seeds:
        log, weather = invented_crew(seed, round(units))
        began = time.perf_counter()
        calendar = work_out(log, weather)
        seconds += time.perf_counter() - began
        checks += sum(len(found) for found in calendar.checks.values())
    return Recomputed(seconds, checks, _peak_mib())


def _peak_mib() -> float:
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
