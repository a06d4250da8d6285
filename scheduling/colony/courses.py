"""Bees and brood of many units at once: the walk of ``course``, with a row of arrays to a day."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scheduling.alike import Alike
from scheduling.by_day import by_day_of_each
from scheduling.colony.account import HOLDS
from scheduling.colony.course import (
    BECOMES_A_BEE,
    COMB_FOR_BROOD,
    FIELD_BEES_GONE,
    FIRST_WEEK,
    FROM_EGG,
    OPEN,
    SEALED,
    STAYS_ALIVE,
    Course,
)
from scheduling.colony.plan import Added, Laying, Plan
from scheduling.colony.stock import Stock
from scheduling.trade import table

Amounts = NDArray[np.float64]
"""One amount for each day and walk, in this order, or for each walk."""

_Start = tuple[Stock, tuple[Laying, ...], tuple[Added, ...]]
"""All that decides a walk."""


@dataclass(frozen=True)
class Courses:
    """Bees and brood at the end of each day from make-up on; units that are alike share one walk.

    Attributes:
        walks: the number of each unit's walk.
        bees: by day and walk.
        open_cells: the same.
        sealed_cells: the same.

    """

    walks: Sequence[int]
    bees: Amounts
    open_cells: Amounts
    sealed_cells: Amounts

    def each(self) -> list[Course]:
        """Give the course of each unit."""
        parts = (self.bees, self.open_cells, self.sealed_cells)
        courses = list(map(Course, *map(by_day_of_each, parts)))
        return [courses[walk] for walk in self.walks]


def walk_many(plans: Iterable[Plan], days: int = HOLDS) -> Courses:
    """Walk each unit as ``course.walk`` does; the sums are done in the same order."""
    alike = Alike((plan.stock, plan.layings, plan.added) for plan in plans)
    return Courses(alike.kind_of_each, *_walked(alike.kinds, days))


def _walked(starts: Sequence[_Start], days: int) -> tuple[Amounts, Amounts, Amounts]:
    given = _Given(starts, days)
    out, rate = given.out, _rates([layings for _stock, layings, _added in starts], days)
    bees, open_cells, sealed = np.zeros((3, len(starts)))
    kept = np.empty((3, days + 1, len(starts)))
    for day in range(days + 1):
        bees = bees * STAYS_ALIVE + out[day] * BECOMES_A_BEE
        if day == FIELD_BEES_GONE:
            bees -= given.field_bees * STAYS_ALIVE
        sealed += out[day + SEALED] - out[day]
        open_cells -= out[day + SEALED]
        given.put_in(day, bees, open_cells, sealed)
        most = np.minimum(bees * table.BROOD_PER_BEE.value, COMB_FOR_BROOD)
        eggs = np.minimum(rate[day], np.maximum(0.0, most - (sealed + open_cells)))
        out[day + FROM_EGG] += eggs
        open_cells += eggs
        for of, amount in zip(kept, (bees, open_cells, sealed), strict=True):
            of[day] = amount
    return kept[0], *np.maximum(0.0, kept[1:])


class _Given:
    """What is put into each unit on each day, and the brood of it that is to come out."""

    def __init__(self, starts: Sequence[_Start], days: int) -> None:
        self.out: Amounts = np.zeros((days + FROM_EGG + 1, len(starts)))
        at_first = [stock.bees for stock, _layings, _added in starts]
        self.field_bees = np.array(at_first) * table.FIELD_BEES.value
        self._by_day: dict[int, list[tuple[int, Stock]]] = defaultdict(list)
        for number, (stock, _layings, given) in enumerate(starts):
            self._by_day[0].append((number, stock))
            for added in given:
                self._by_day[added.day].append((number, added.stock))

    def put_in(self, day: int, bees: Amounts, open_cells: Amounts, sealed: Amounts) -> None:
        """Put in what is given on ``day``; brood of all ages comes out evenly over its days."""
        given = self._by_day.get(day)
        if not given:
            return
        units = np.array([unit for unit, _stock in given])
        amounts = [(s.bees + s.nurses, s.open_cells, s.sealed_cells) for _unit, s in given]
        shaken, opened, capped = np.array(amounts).T
        for whole, part in ((bees, shaken), (open_cells, opened), (sealed, capped)):
            np.add.at(whole, units, part)
        ahead = np.arange(day + 1, min(day + FROM_EGG + 1, len(self.out)))
        a_day = np.where((ahead <= day + SEALED)[:, None], capped / SEALED, opened / OPEN)
        np.add.at(self.out, (ahead[:, None], units), a_day)


def _rates(queens: Sequence[tuple[Laying, ...]], days: int) -> Amounts:
    """Give the most eggs that each unit's queen lays on each day; none where none lays."""
    alike = Alike(queens)
    rates = np.zeros((days + 1, len(alike.kinds)))
    for number, layings in enumerate(alike.kinds):
        _set_rate(rates[:, number], layings)
    return rates[:, alike.kind_of_each]


def _set_rate(rate: Amounts, layings: tuple[Laying, ...]) -> None:
    """Of two queens that laid on the same day the first counts, so hers is written last."""
    for span in reversed(layings):
        first, week = max(0, span.first), max(0, span.first + FIRST_WEEK)
        end = len(rate) if span.last is None else max(0, span.last + 1)
        rate[first : min(week, end)] = table.EGGS_FIRST_WEEK.value
        rate[max(first, week) : end] = table.EGGS_AFTER.value
