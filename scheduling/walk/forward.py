"""The chances of many queens on one day, and how they pass to the next."""

import numpy as np
from numpy.typing import NDArray

from scheduling.walk.case import LONGEST_EMERGENCE
from scheduling.walk.stages import Stages
from scheduling.walk.states import State

IMPOSSIBLE = 1e-12
"""A sight less likely than this cannot be, as far as the numbers tell."""

Row = NDArray[np.float64]
"""One number for each queen."""


class Forward:
    """Where each of many queens may stand, on one day after the other.

    A stage of a given length is kept apart by the day it ends: the sealed and the waiting by
    their day of emergence, the maturing by that and by the day they are mature, the mated by
    the days until the first egg. So nothing but the day is needed to know who passes on.
    """

    def __init__(self, emergence: Row, from_cell: NDArray[np.bool_], stages: Stages) -> None:
        queens = emergence.shape[1]
        emerges = np.where(from_cell, stages.emerge, 1.0)
        self._stages = stages
        self._sealed = emergence * emerges
        self._maturing = np.zeros((LONGEST_EMERGENCE, len(stages.maturing.chances), queens))
        self._waiting = np.zeros((LONGEST_EMERGENCE, queens))
        self._mated = np.zeros((stages.to_first_egg.last, queens))
        self._laying, self._lost, self._unmated = np.zeros((3, queens))
        self._dud = 1 - emerges

    def step(self, day: int, mating: Row) -> None:
        """Pass to ``day``; ``mating`` is the chance that a virgin who waits mates on it."""
        self._lose()
        self._lay()
        self._emerge(day)
        self._mature(day)
        self._mate(day, mating)

    def narrow(self, queens: NDArray[np.intp], likelihood: tuple[float, ...]) -> None:
        """Weigh each state by the likelihood of what was seen, then make chances of it again."""
        for state, chances in self._by_state().items():
            chances[..., queens] *= likelihood[state]
        total = self._total()[queens]
        scale = np.divide(1, total, out=np.zeros_like(total), where=total > IMPOSSIBLE)
        for chances in self._by_state().values():
            chances[..., queens] *= scale

    def chances(self) -> Row:
        """Give the rows emerged, virgin, eggs, failed, and the sum of all."""
        out = self._maturing.sum(axis=(0, 1)) + self._waiting.sum(axis=0)
        gone = self._lost + self._unmated
        emerged = out + self._mated.sum(axis=0) + self._laying + gone
        total = emerged + self._sealed.sum(axis=0) + self._dud
        return np.stack([emerged, out, self._laying, gone + self._dud, total])

    def _by_state(self) -> dict[State, Row]:
        return {
            State.SEALED: self._sealed,
            State.MATURING: self._maturing,
            State.WAITING: self._waiting,
            State.MATED: self._mated,
            State.LAYING: self._laying,
            State.DUD: self._dud,
            State.LOST: self._lost,
            State.UNMATED: self._unmated,
        }

    def _total(self) -> Row:
        whole: Row = self.chances()[-1]
        return whole

    def _lose(self) -> None:
        share = self._stages.lost_a_day
        young = self._maturing.sum(axis=(0, 1)) + self._waiting.sum(axis=0)
        self._lost += share * (young + self._mated.sum(axis=0))
        for chances in (self._maturing, self._waiting, self._mated):
            chances *= 1 - share

    def _lay(self) -> None:
        self._laying += self._mated[0]
        self._mated[:-1] = self._mated[1:]
        self._mated[-1] = 0

    def _emerge(self, day: int) -> None:
        if day >= LONGEST_EMERGENCE:
            return
        for nth, chance in enumerate(self._stages.maturing.chances):
            self._maturing[day, nth] = self._sealed[day] * chance
        self._sealed[day] = 0

    def _mature(self, day: int) -> None:
        for emerged in range(LONGEST_EMERGENCE):
            nth = day - emerged - self._stages.maturing.first
            if 0 <= nth < len(self._stages.maturing.chances):
                self._waiting[emerged] += self._maturing[emerged, nth]
                self._maturing[emerged, nth] = 0

    def _mate(self, day: int, mating: Row) -> None:
        flown = self._waiting * mating
        self._waiting -= flown
        self._lost += (1 - self._stages.back) * flown.sum(axis=0)
        ages = day - np.arange(LONGEST_EMERGENCE)
        well = np.array([self._stages.mates_well(int(age)) for age in ages])
        good = self._stages.back * (well @ flown)
        self._unmated += self._stages.back * flown.sum(axis=0) - good
        self._begin_to_lay(good)
        too_old = ages >= self._stages.mates_until
        self._unmated += self._waiting[too_old].sum(axis=0)
        self._waiting[too_old] = 0

    def _begin_to_lay(self, good: Row) -> None:
        spread = self._stages.to_first_egg
        for nth, chance in enumerate(spread.chances):
            self._mated[spread.first + nth - 1] += good * chance
