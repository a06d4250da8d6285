"""Bees and brood of one unit, walked day by day."""

from dataclasses import dataclass
from functools import lru_cache

from scheduling.by_day import ByDay, by_day
from scheduling.colony.plan import Added, Laying
from scheduling.colony.stock import Stock, cells_per_side
from scheduling.quickly_made import quickly_made
from scheduling.trade import table

FROM_EGG = table.WORKER_FROM_EGG.days
OPEN = table.WORKER_OPEN_BROOD.days
SEALED = FROM_EGG - OPEN


@quickly_made
@dataclass(frozen=True, slots=True)
class Course:
    """A unit's bees and brood at the end of each day from make-up (day 0) on.

    Attributes:
        bees: adult bees.
        open_cells: eggs and larvae.
        sealed_cells: sealed brood.

    """

    bees: ByDay
    open_cells: ByDay
    sealed_cells: ByDay

    def brood(self, day: int) -> float:
        """Give all cells of brood on that day."""
        return self.open_cells[day] + self.sealed_cells[day]


@lru_cache(maxsize=4096)
def walk(
    stock: Stock, layings: tuple[Laying, ...] = (), added: tuple[Added, ...] = (), days: int = 60
) -> Course:
    """Walk a unit from make-up over ``days`` days.

    On the first day the field bees fly home. Each day one bee in a worker's life dies; brood
    comes out by its age, less what fails; a queen lays what she can, never more than the bees can
    nurse or the combs can hold. Units stocked alike share one walk.
    """
    out = [0.0] * (days + FROM_EGG + 1)
    given = _by_day(stock, added)
    laid = _laying_days(layings, days)
    bees = open_cells = sealed = 0.0
    kept = list[tuple[float, float, float]]()
    for day in range(days + 1):
        bees = bees * STAYS_ALIVE + out[day] * BECOMES_A_BEE
        if day == FIELD_BEES_GONE:
            bees -= stock.bees * table.FIELD_BEES.value * STAYS_ALIVE
        sealed += out[day + SEALED] - out[day]
        open_cells -= out[day + SEALED]
        for put_in in given.get(day, ()):
            bees += put_in.bees + put_in.nurses
            sealed += put_in.sealed_cells
            open_cells += put_in.open_cells
            _will_emerge(put_in, day, out)
        eggs = _eggs(laid.get(day), bees, sealed + open_cells)
        out[day + FROM_EGG] += eggs
        open_cells += eggs
        kept.append((bees, max(0.0, open_cells), max(0.0, sealed)))
    return Course(*map(by_day, zip(*kept, strict=True)))


STAYS_ALIVE = 1 - 1 / table.WORKER_LIFE.value
BECOMES_A_BEE = table.BROOD_SURVIVAL.value
FIELD_BEES_GONE = 1
FIRST_WEEK = 7
COMB_FOR_BROOD = table.BROOD_SIDES.value * cells_per_side() * table.BROOD_IN_COMB.value


def _by_day(stock: Stock, added: tuple[Added, ...]) -> dict[int, list[Stock]]:
    given: dict[int, list[Stock]] = {0: [stock]}
    for each in added:
        given.setdefault(each.day, []).append(each.stock)
    return given


def _laying_days(layings: tuple[Laying, ...], days: int) -> dict[int, int]:
    """Give for each day on which a queen lays how many days she has laid by then."""
    laid: dict[int, int] = {}
    for span in layings:
        last = days if span.last is None else min(span.last, days)
        for day in range(max(0, span.first), last + 1):
            laid.setdefault(day, day - span.first)
    return laid


def _will_emerge(stock: Stock, day: int, out: list[float]) -> None:
    """Spread brood of all ages evenly over the days on which it comes out."""
    for ahead in range(1, FROM_EGG + 1):
        if day + ahead < len(out):
            sealed = ahead <= SEALED
            out[day + ahead] += stock.sealed_cells / SEALED if sealed else stock.open_cells / OPEN


def _eggs(laid: int | None, bees: float, brood: float) -> float:
    """Give the eggs laid on a day, held back by too few bees or too little comb."""
    if laid is None:
        return 0.0
    rate = table.EGGS_FIRST_WEEK if laid < FIRST_WEEK else table.EGGS_AFTER
    most = min(bees * table.BROOD_PER_BEE.value, COMB_FOR_BROOD)
    return min(rate.value, max(0.0, most - brood))
