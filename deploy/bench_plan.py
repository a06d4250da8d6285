"""Measures the visit planner: ``.venv/bin/python deploy/bench_plan.py``; prints a table.

The checks are invented: windows of 2 to 8 days, spread evenly by a fixed seed over two weeks.
Real yards share their start days, so that theirs are easier to plan.
"""

import sys
import time
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from scheduling.check_kinds import CheckKind  # noqa: E402
from scheduling.checks.check import Cause, Check, Why  # noqa: E402
from scheduling.places import Place, UnitName  # noqa: E402
from scheduling.visit_plan import HORIZON_DAYS, Drives, plan_visits  # noqa: E402
from scheduling.visit_plan.errands import Errand  # noqa: E402
from scheduling.visit_plan.worth import closeness  # noqa: E402

FIRST = date(2027, 5, 1)
SEEDS = (1, 2, 3)
CASES = (
    (1, 1000, None),
    (5, 300, None),
    (60, 1000, None),
    (5, 300, 3),
    (60, 1000, 40),
    (60, 1000, 20),
    (60, 1000, 8),
)
"""Yards, checks, and yards that can be visited in a day."""


def errands(yards: int, checks: int, seed: int) -> Iterator[Errand]:
    """Invent so many checks, shared out evenly among the yards."""
    chance = np.random.default_rng(seed)
    for number in range(checks):
        first = int(chance.integers(HORIZON_DAYS))
        last = min(HORIZON_DAYS - 1, first + int(chance.integers(1, 8)))
        best = int(chance.integers(first, last + 1))
        place = Place(f"yard {number % yards}", UnitName(1 + number // yards))
        yield errand(place, first, best, last)


def errand(place: Place, first: int, best: int, last: int) -> Errand:
    """Make one check between two days of the plan, counted from 0."""
    begin, top, end = (FIRST + timedelta(days=ahead) for ahead in (first, best, last))
    check = Check(place, CheckKind.LAYING, begin, top, end, Why(Cause.EGGS_EXPECTED, about=top))
    days = tuple(FIRST + timedelta(days=ahead) for ahead in range(first, last + 1))
    return Errand(check, days, tuple(closeness(check, day) for day in days))


def measure(yards: int, checks: int, limit: int | None) -> str:
    """Plan for each seed; one line with the slowest time."""
    slowest, plans = 0.0, []
    for seed in SEEDS:
        wanted = tuple(errands(yards, checks, seed))
        begun = time.perf_counter()
        plans.append(plan_visits(wanted, Drives(FIRST, yards_a_day=limit)))
        slowest = max(slowest, time.perf_counter() - begun)
    last = plans[-1]
    counts = (len(last.visits), len(last.drive_days), len(last.unserved))
    exact = "yes" if all(plan.exact for plan in plans) else "no"
    return f"{yards:5} {checks:6} {limit or '-':>5} {slowest:9.2f} s {counts!s:>15} {exact:>6}"


def main() -> None:
    """Load the solver, then measure every case."""
    begun = time.perf_counter()
    plan_visits(errands(2, 4, 1), Drives(FIRST))
    print(f"solver loaded (numpy before) and used: {time.perf_counter() - begun:.2f} s")
    print("(visits, days of driving, unserved) are those of the last seed")
    print("yards checks limit     slowest          counts  exact")
    for case in CASES:
        print(measure(*case), flush=True)


if __name__ == "__main__":
    main()
