"""Bees and brood of one unit, projected day by day from its make-up."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from scheduling.colony.stock import Stock, cells_per_side
from scheduling.colony.unit_make_up import Added, Laying
from scheduling.trade import table

FROM_EGG = table.WORKER_FROM_EGG.days
OPEN = table.WORKER_OPEN_BROOD.days
SEALED = FROM_EGG - OPEN


@dataclass(frozen=True, slots=True)
class Projection:
    """A unit's bees and brood at the end of each day from make-up (day 0) on.

    Attributes:
        bees: adult bees.
        open_cells: eggs and larvae.
        sealed_cells: sealed brood.

    """

    bees: Sequence[float]
    open_cells: Sequence[float]
    sealed_cells: Sequence[float]

    def brood(self, day: int) -> float:
        """Give all cells of brood on that day."""
        return self.open_cells[day] + self.sealed_cells[day]


@lru_cache(maxsize=256)
def project(
    stock: Stock, layings: tuple[Laying, ...] = (), added: tuple[Added, ...] = (), days: int = 60
) -> Projection:
    """Project a unit from make-up over ``days`` days.

    On the first day the field bees fly home. Each day one bee in a worker's life dies; brood
    comes out by its age, less what fails; a queen lays what she can, never more than the bees can
    nurse or the combs can hold. Units stocked alike share one projection.
    """
    out = [0.0] * (days + FROM_EGG + 1)
    given, most_eggs = _by_day(stock, added), _most_eggs(layings, days)
    bees = open_cells = sealed = 0.0
    kept: tuple[list[float], list[float], list[float]] = [], [], []
    keep_bees, keep_open, keep_sealed = (each.append for each in kept)
    for day in range(days + 1):
        bees = bees * STAYS_ALIVE + out[day] * BECOMES_A_BEE
        if day == FIELD_BEES_GONE:
            bees -= stock.bees * _FIELD_BEES * STAYS_ALIVE
        just_sealed = out[day + SEALED]
        sealed += just_sealed - out[day]
        open_cells -= just_sealed
        if day in given:
            for put_in in given[day]:
                bees += put_in.bees + put_in.nurses
                sealed += put_in.sealed_cells
                open_cells += put_in.open_cells
                _will_emerge(put_in, day, out)
        if day in most_eggs:
            room = min(bees * _BROOD_PER_BEE, COMB_FOR_BROOD) - (sealed + open_cells)
            eggs = min(most_eggs[day], max(0.0, room))
            out[day + FROM_EGG] += eggs
            open_cells += eggs
        keep_bees(bees)
        keep_open(open_cells if open_cells > 0 else 0.0)
        keep_sealed(sealed if sealed > 0 else 0.0)
    return Projection(*kept)


STAYS_ALIVE = 1 - 1 / table.WORKER_LIFE.value
BECOMES_A_BEE = table.BROOD_SURVIVAL.value
FIELD_BEES_GONE = 1
FIRST_WEEK = 7
COMB_FOR_BROOD = table.BROOD_SIDES.value * cells_per_side() * table.BROOD_IN_COMB.value
_FIELD_BEES = table.FIELD_BEES.value
_BROOD_PER_BEE = table.BROOD_PER_BEE.value


def _by_day(stock: Stock, added: tuple[Added, ...]) -> dict[int, list[Stock]]:
    given: dict[int, list[Stock]] = {0: [stock]}
    for each in added:
        given.setdefault(each.day, []).append(each.stock)
    return given


def _most_eggs(layings: tuple[Laying, ...], days: int) -> dict[int, float]:
    """Give the most eggs of each day on which a queen lays; of two on one day the first counts."""
    most: dict[int, float] = {}
    first_week, after = table.EGGS_FIRST_WEEK.value, table.EGGS_AFTER.value
    for span in layings:
        last = days if span.last is None else min(span.last, days)
        for day in range(max(0, span.first), last + 1):
            most.setdefault(day, first_week if day - span.first < FIRST_WEEK else after)
    return most


def _will_emerge(stock: Stock, day: int, out: list[float]) -> None:
    """Spread brood of all ages evenly over the days on which it comes out."""
    for amount, first, end in (
        (stock.sealed_cells / SEALED, 1, SEALED + 1),
        (stock.open_cells / OPEN, SEALED + 1, FROM_EGG + 1),
    ):
        for on in range(day + first, min(day + end, len(out)) if amount else 0):
            out[on] += amount
