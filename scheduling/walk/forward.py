"""The chances of many queens on one day, and how they pass to the next."""

import numpy as np
from numpy.typing import NDArray

from scheduling.walk.by_age import ByAge
from scheduling.walk.case import LONGEST_EMERGENCE
from scheduling.walk.stages import Stages
from scheduling.walk.states import State

IMPOSSIBLE = 1e-12
"""A sight less likely than this cannot be, as far as the numbers tell."""

Row = NDArray[np.float64]
"""One number for each queen, or for each day of emergence."""


_ROWS_OF = dict.fromkeys((State.SEALED, State.MATURING, State.WAITING), LONGEST_EMERGENCE)
"""Rows of a state that is kept apart by the day of emergence; the mated have one for each day."""


class Forward:
    """Where each of many queens may stand, on one day after the other.

    A stage of a given length is kept apart by the day it ends: the sealed, the maturing and the
    waiting by their day of emergence, the mated by the days until the first egg. So nothing but
    the day is needed to know who passes on. Of the maturing stands the chance that she emerged on
    that day and is still there; the share of them that is not mature yet is the same for all.

    The rows of all the states lie in one array, in the order of the states, and each state is a
    view of its own rows.
    """

    def __init__(self, emergence: Row, from_cell: NDArray[np.bool_], stages: Stages) -> None:
        queens = emergence.shape[1]
        emerges = np.where(from_cell, stages.emerge, 1.0)
        self._stages = stages
        self._by_age = ByAge(stages)
        rows = [_ROWS_OF.get(state, 1) for state in State]
        rows[State.MATED] = stages.to_first_egg.last
        ends = np.cumsum(rows)
        self._state_of_row = np.repeat(np.arange(len(State)), rows)
        self._all = np.zeros((ends[-1], queens))
        self._sealed, self._maturing, self._waiting, self._mated, *rest = np.split(
            self._all, ends[:-1]
        )
        self._laying, self._dud, self._lost, self._unmated = (row for (row,) in rest)
        self._young = self._all[ends[State.SEALED] : ends[State.MATED]]
        self._counts = np.ones(ends[-1])
        self._immature = self._counts[ends[State.SEALED] : ends[State.MATURING]]
        self._sealed[:], self._dud[:] = emergence * emerges, 1 - emerges
        self._summed: tuple[Row, Row] | None = None

    def step(self, day: int, mating: Row) -> None:
        """Pass to ``day``; ``mating`` is the chance that a virgin who waits mates on it."""
        self._lose()
        self._lay()
        self._emerge(day)
        self._mature(day)
        self._mate(day, mating)

    def narrow(self, queens: NDArray[np.intp], likelihood: tuple[float, ...]) -> None:
        """Weigh each state by the likelihood of what was seen, then make chances of it again."""
        seen = self._all[:, queens] * np.array(likelihood)[self._state_of_row, None]
        total = self._counts @ seen
        scale = np.divide(1, total, out=np.zeros_like(total), where=total > IMPOSSIBLE)
        self._all[:, queens] = seen * scale
        self._summed = None

    def chances(self) -> Row:
        """Give the rows emerged, virgin, eggs, failed, and the sum of all."""
        out, mated = self._not_laying()
        gone = self._lost + self._unmated
        emerged = out + mated + self._laying + gone
        total = emerged + self._sealed.sum(axis=0) + self._dud
        return np.array((emerged, out, self._laying, gone + self._dud, total))

    def _not_laying(self) -> tuple[Row, Row]:
        """Give the chances that she is out and not mated, and that she is mated.

        What a day ends with the next begins with, so the sums are kept until something changes.
        """
        if self._summed is None:
            out = self._immature @ self._maturing + self._waiting.sum(axis=0)
            self._summed = out, self._mated.sum(axis=0)
        return self._summed

    def _lose(self) -> None:
        share = self._stages.lost_a_day
        out, mated = self._not_laying()
        self._lost += share * (out + mated)
        self._young *= 1 - share
        self._summed = None

    def _lay(self) -> None:
        self._laying += self._mated[0]
        self._mated[:-1] = self._mated[1:]
        self._mated[-1] = 0

    def _emerge(self, day: int) -> None:
        if day < LONGEST_EMERGENCE:
            self._maturing[day] = self._sealed[day]
            self._sealed[day] = 0

    def _mature(self, day: int) -> None:
        self._waiting += self._by_age.matures(day)[:, None] * self._maturing
        self._immature[:] = self._by_age.immature(day)

    def _mate(self, day: int, mating: Row) -> None:
        flown = self._waiting * mating
        self._waiting -= flown
        away = flown.sum(axis=0)
        self._lost += (1 - self._stages.back) * away
        good = self._stages.back * (self._by_age.mates_well(day) @ flown)
        self._unmated += self._stages.back * away - good
        self._begin_to_lay(good)
        too_old = max(0, day - self._stages.mates_until + 1)
        self._unmated += self._waiting[:too_old].sum(axis=0)
        self._waiting[:too_old] = 0

    def _begin_to_lay(self, good: Row) -> None:
        spread = self._stages.to_first_egg
        self._mated[spread.first - 1 : spread.last] += np.multiply.outer(spread.chances, good)
