"""What a queen's age decides in the walk, for each day on which she may have emerged."""

import numpy as np
from numpy.typing import NDArray

from scheduling.walk.case import DAYS, LONGEST_EMERGENCE
from scheduling.walk.stages import Stages

Row = NDArray[np.float64]
"""One number for each day of emergence."""


class ByAge:
    """What holds on a day for each day of emergence, the first of them first."""

    def __init__(self, stages: Stages) -> None:
        days = range(1 - LONGEST_EMERGENCE, DAYS)
        chances = dict(enumerate(stages.maturing.chances, stages.maturing.first))
        matures = np.array([chances.get(age, 0.0) for age in days])
        later = [sum(chance for of, chance in chances.items() if of > age) for age in days]
        self._matures, self._immature = matures[::-1], np.array(later)[::-1]
        self._mates_well = np.array([stages.mates_well(age) for age in days])[::-1]

    def matures(self, day: int) -> Row:
        """Give the share of the queens who emerged on each day that is mature on this one."""
        return self._on(day, self._matures)

    def immature(self, day: int) -> Row:
        """Give the share that is not mature by the end of this day."""
        return self._on(day, self._immature)

    def mates_well(self, day: int) -> Row:
        """Give the share of good matings among those who mate on this day."""
        return self._on(day, self._mates_well)

    def _on(self, day: int, by_age: Row) -> Row:
        """Take the ages on this day, those who emerged first being the oldest."""
        oldest = DAYS - 1 - day
        return by_age[oldest : oldest + LONGEST_EMERGENCE]
