"""What was seen of many queens, sorted by day for the walk."""

from collections import defaultdict
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from scheduling.walk.case import Case, Sight
from scheduling.walk.sight import likelihoods
from scheduling.walk.stages import Stages

Narrowing = tuple[NDArray[np.intp], tuple[float, ...]]
"""Queens of whom the same was seen, and its likelihood in each state."""


def sights_by_day(cases: Sequence[Case], stages: Stages) -> dict[int, list[Narrowing]]:
    """Give for each day the queens of whom something was seen."""
    seen: dict[tuple[int, Sight], list[int]] = defaultdict(list)
    for number, case in enumerate(cases):
        for day, sight in case.seen:
            seen[day, sight].append(number)
    by_day: dict[int, list[Narrowing]] = defaultdict(list)
    for (day, sight), numbers in seen.items():
        by_day[day].append((np.array(numbers, dtype=np.intp), likelihoods(sight, stages)))
    return dict(by_day)
