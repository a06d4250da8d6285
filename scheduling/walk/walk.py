"""The walk itself: many queens at once, day by day."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scheduling.walk.case import DAYS, LONGEST_EMERGENCE, Case
from scheduling.walk.days import CERTAIN
from scheduling.walk.forward import Forward
from scheduling.walk.sights_by_day import sights_by_day
from scheduling.walk.stages import PUBLISHED, Stages

Chances = NDArray[np.float64]
"""One chance for each queen and day, in this order."""

AT_ONCE = 2048
"""Queens walked together: few enough that all of one day's numbers stay near the processor."""


@dataclass(frozen=True)
class Walked:
    """Chances of each queen on each day, given what was seen of her up to that day.

    On the days after the last sight they are given all that was seen.

    Attributes:
        emerged: she has come out of her cell, whatever became of her since.
        virgin: she is out, there, and has not mated.
        eggs: she lays, so that eggs can be seen.
        failed: the cell is a dud, or she is lost, or too old to mate well.
        possible: one for each queen: whether what was seen can be at all.

    """

    emerged: Chances
    virgin: Chances
    eggs: Chances
    failed: Chances
    possible: NDArray[np.bool_]

    @property
    def eggs_if_alive(self) -> Chances:
        """Chance of eggs if she has not failed; 0 where she has for certain."""
        alive = 1 - self.failed
        return np.divide(self.eggs, alive, out=np.zeros_like(alive), where=alive > CERTAIN)

    @property
    def lays_if_not_yet(self) -> Chances:
        """Chance that she will ever lay if on that day she does not; 0 where she does."""
        left = 1 - self.eggs
        later = np.maximum(self.eggs[:, -1:] - self.eggs, 0)
        return np.divide(later, left, out=np.zeros_like(left), where=left > CERTAIN)


def walk(cases: Sequence[Case], stages: Stages = PUBLISHED) -> Walked:
    """Walk the queens through their stages, each through her own weather and sights."""
    parts = [_together(cases[n : n + AT_ONCE], stages) for n in range(0, len(cases), AT_ONCE)]
    days = np.concatenate([*parts, np.zeros((5, DAYS, 0))], axis=2).swapaxes(1, 2)
    emerged, virgin, eggs, failed, left = days
    return Walked(emerged, virgin, eggs, failed, possible=left[:, -1] > 0)


def _together(cases: Sequence[Case], stages: Stages) -> NDArray[np.float64]:
    """Give emerged, virgin, eggs, failed and whether anything is left, by day and queen."""
    flying = np.array([case.flying for case in cases]).T
    mating = 1 - (1 - stages.flight_chance) ** flying
    mating[flying == 0] = 0
    forward = Forward(_emergence(cases), _from_cell(cases), stages)
    sights = sights_by_day(cases, stages)
    days = np.empty((5, DAYS, len(cases)))
    for day in range(DAYS):
        forward.step(day, mating[day])
        for queens, likelihood in sights.get(day, ()):
            forward.narrow(queens, likelihood)
        days[:, day] = forward.chances()
    return days


def _emergence(cases: Sequence[Case]) -> NDArray[np.float64]:
    emergence = np.zeros((LONGEST_EMERGENCE, len(cases)))
    for number, case in enumerate(cases):
        emergence[: len(case.emergence.chances), number] = case.emergence.chances
    return emergence


def _from_cell(cases: Sequence[Case]) -> NDArray[np.bool_]:
    return np.array([case.from_cell for case in cases], dtype=np.bool_)
