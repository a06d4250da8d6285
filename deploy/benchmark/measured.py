"""Running one measurement in processes of their own, one to a core."""

import re
import time
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from multiprocessing import get_context
from pathlib import Path
from statistics import median

from bot.gc_tuning import collect_rarely
from deploy.benchmark.invented_crew import UNITS, invented_crew
from scheduling.checks.calendar import work_out

CORES = 2
FIRST_TIMES = 5
"""Fresh processes whose first calendar is measured."""


@dataclass(frozen=True)
class Spent:
    """Seconds by the clock on the wall, and seconds of a processor's work.

    The second is the more telling where other programs run beside.
    """

    wall: float
    processor: float


@dataclass(frozen=True)
class Recomputed:
    """What one process measured.

    Attributes:
        spent: time spent in working out calendars, not in inventing the crews.
        checks: how many checks came of it.
        peak_mib: the most memory that the process ever held, everything included.
    """

    spent: Spent
    checks: int
    peak_mib: float


def timed(work: Callable[[], object]) -> Spent:
    """Do the work once."""
    wall, processor = time.perf_counter(), time.process_time()
    work()
    return Spent(time.perf_counter() - wall, time.process_time() - processor)


def recomputed(units: int, *, all_different: bool) -> list[Recomputed]:
    """Work out the calendars of so many units, crew by crew, on two cores.

    Both processes are new, have worked out nothing but one crew of three units, and look for
    garbage as seldom as the running program does.
    """
    crews = max(1, round(units / UNITS))
    shares = [range(core, crews, CORES) for core in range(min(CORES, crews))]
    with ProcessPoolExecutor(CORES, mp_context=get_context("spawn")) as pool:
        each = [units / crews] * len(shares), [all_different] * len(shares)
        return list(pool.map(_share, shares, *each))


def first_time(*, all_different: bool) -> Spent:
    """Work out one crew's calendar in each of some new processes; give the middle."""
    context = get_context("spawn")
    found = []
    for seed in range(FIRST_TIMES):
        with ProcessPoolExecutor(1, mp_context=context) as pool:
            share = pool.submit(_share, range(seed, seed + 1), UNITS, all_different)
            found.append(share.result())
    each = [share.spent for share in found]
    return Spent(median(spent.wall for spent in each), median(spent.processor for spent in each))


def _share(seeds: range, units: float, all_different: bool) -> Recomputed:
    work_out(*invented_crew(0, 3))
    collect_rarely()
    wall, processor, checks = 0.0, 0.0, 0
    for seed in seeds:
        log, weather = invented_crew(seed, round(units), all_different=all_different)
        began = time.perf_counter(), time.process_time()
        calendar = work_out(log, weather)
        wall += time.perf_counter() - began[0]
        processor += time.process_time() - began[1]
        checks += sum(len(found) for found in calendar.checks.values())
    return Recomputed(Spent(wall, processor), checks, peak_mib())


def peak_mib() -> float:
    """Give the most memory that this process held since its program began.

    What ``getrusage`` tells will not do: a new process starts there with the peak of its parent.
    """
    told = Path("/proc/self/status").read_text(encoding="utf-8")
    peak = re.search(r"^VmHWM:\s*(\d+) kB$", told, re.MULTILINE)
    if peak is None:
        raise OSError("this system does not tell the peak of a process's memory")
    return int(peak[1]) / 1024
