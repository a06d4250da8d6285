"""A unit's account of bees and brood, day by day from its make-up."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property, lru_cache

from scheduling.colony.unit_make_up import (
    Added,
    Laying,
    Stock,
    added_since,
    cells_per_side,
    last_make_up,
    layings_since,
    stocked,
)
from scheduling.entries import Entry
from scheduling.trade import table
from scheduling.trade.constant import days_after
from scheduling.values import MakeUp

FROM_EGG = table.WORKER_FROM_EGG.days
OPEN = table.WORKER_OPEN_BROOD.days
SEALED = FROM_EGG - OPEN


@dataclass(frozen=True, slots=True)
class Projection:
    """A unit's bees and brood at the end of each day from make-up (day 0) on.

    Attributes:
        bees: adult bees.
        brood: eggs, larvae and sealed brood, in cells.

    """

    bees: Sequence[float]
    brood: Sequence[float]


@lru_cache(maxsize=256)
def project(
    stock: Stock, layings: tuple[Laying, ...] = (), added: tuple[Added, ...] = (), days: int = 60
) -> Projection:
    """Project a unit from make-up over ``days`` days.

    On the first day the field bees fly home. Each day one bee in a worker's life dies; brood
    comes out by its age, less what fails; a queen lays what she can, never more than the bees can
    nurse or the combs can hold. Units stocked alike share one projection.
    """
    put_in, most_eggs = _put_in(stock, added, days), _most_eggs(layings, days)
    out, bees, brood = put_in.out, 0.0, 0.0
    each_bees, each_brood = [], []
    days_put_in = zip(put_in.bees, put_in.cells, most_eggs, strict=True)
    for day, (joins, cells, most) in enumerate(days_put_in):
        emerges = out[day]
        bees = bees * STAYS_ALIVE + emerges * BECOMES_A_BEE + joins
        brood += cells - emerges
        if most:
            nursed = bees * _BROOD_PER_BEE
            room = (nursed if nursed < COMB_FOR_BROOD else COMB_FOR_BROOD) - brood
            if room > 0:
                eggs = most if most < room else room
                out[day + FROM_EGG] += eggs
                brood += eggs
        each_bees.append(bees)
        each_brood.append(brood)
    return Projection(each_bees, each_brood)


STAYS_ALIVE = 1 - 1 / table.WORKER_LIFE.value
BECOMES_A_BEE = table.BROOD_SURVIVAL.value
FIELD_BEES_GONE = 1
FIRST_WEEK = 7
COMB_FOR_BROOD = table.BROOD_SIDES.value * cells_per_side() * table.BROOD_IN_COMB.value
_EGGS_FIRST_WEEK, _EGGS_AFTER = table.EGGS_FIRST_WEEK.value, table.EGGS_AFTER.value
_FIELD_BEES = table.FIELD_BEES.value
_BROOD_PER_BEE = table.BROOD_PER_BEE.value


@dataclass(frozen=True, slots=True)
class _PutIn:
    """What is put in on each day: bees, cells of brood, and those cells by the day they are out.

    Field bees that fly home stand among the bees, less than none.
    """

    bees: list[float]
    cells: list[float]
    out: list[float]


def _put_in(stock: Stock, added: tuple[Added, ...], days: int) -> _PutIn:
    found = _PutIn([0.0] * (days + 1), [0.0] * (days + 1), [0.0] * (days + FROM_EGG + 1))
    found.bees[FIELD_BEES_GONE] -= stock.bees * _FIELD_BEES * STAYS_ALIVE
    _put(stock, 0, found)
    for each in added:
        if each.day <= days:
            _put(each.stock, each.day, found)
    return found


def _put(stock: Stock, day: int, into: _PutIn) -> None:
    """Spread brood of all ages evenly over the days on which it comes out."""
    into.bees[day] += stock.bees + stock.nurses
    into.cells[day] += stock.sealed_cells + stock.open_cells
    opened, last, out = day + SEALED + 1, day + FROM_EGG + 1, into.out
    if stock.sealed_cells:
        share = stock.sealed_cells / SEALED
        out[day + 1 : opened] = [cells + share for cells in out[day + 1 : opened]]
    if stock.open_cells:
        share = stock.open_cells / OPEN
        out[opened:last] = [cells + share for cells in out[opened:last]]


def _most_eggs(layings: tuple[Laying, ...], days: int) -> list[float]:
    """Give the most eggs of each day, 0 without a queen; of two on one day the first counts."""
    most = [0.0] * (days + 1)
    for span in reversed(layings):
        first = max(0, span.first)
        end = max(first, days + 1 if span.last is None else min(span.last, days) + 1)
        week_end = max(first, min(span.first + FIRST_WEEK, end))
        most[first:week_end] = [_EGGS_FIRST_WEEK] * (week_end - first)
        most[week_end:end] = [_EGGS_AFTER] * (end - week_end)
    return most


HOLDS = table.ACCOUNT_HOLDS.days
"""Days from make-up on for which an account is kept."""


@dataclass(frozen=True)
class Account:
    """Bees and brood of one unit by the yard's local date.

    Attributes:
        made_up_on: the day of make-up, on which the account begins.
        told: what the keeper told of the make-up.
        stock: what that comes to.
        layings: when queens laid or are expected to lay, in days from make-up.
        added: what was given to the unit since.

    """

    made_up_on: date
    told: MakeUp
    stock: Stock
    layings: tuple[Laying, ...] = ()
    added: tuple[Added, ...] = ()

    @cached_property
    def projection(self) -> Projection:
        """Bees and brood by day."""
        return project(self.stock, self.layings, self.added, HOLDS)

    @property
    def last(self) -> date:
        """The last date for which the account holds."""
        return days_after(self.made_up_on, len(self.projection.bees) - 1)

    def day(self, on: date) -> int:
        """Give the day of the projection for a date."""
        return (on - self.made_up_on).days

    def on(self, day: int) -> date:
        """Give the date of a day of the projection."""
        return days_after(self.made_up_on, day)

    def bees(self, on: date) -> float:
        """Give the bees on a date on which the account holds."""
        return self.projection.bees[self.day(on)]


def account_of(entries: Sequence[Entry], expected_eggs: date | None = None) -> Account | None:
    """Work out the account from the last make-up on; None where no make-up was told.

    ``entries`` are the unit's standing entries, oldest first; ``expected_eggs`` the day on which
    a queen that was not seen to lay yet should begin.
    """
    made_up = last_make_up(entries)
    if made_up is None:
        return None
    start, told = made_up
    since = [entry for entry in entries if entry.on >= start]
    layings = layings_since(start, since, expected_eggs)
    return Account(start, told, stocked(told), layings, added_since(start, since))
