"""Whether a unit has bees enough: tonight, until its own young ones, and for another round."""

import math
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from scheduling.colony.account import FROM_EGG, SEALED, Account, Projection, project
from scheduling.colony.unit_make_up import Added, brood_cells, brood_frame
from scheduling.trade import table
from scheduling.trade.constant import days_after

_FRAME_OF_BROOD = brood_cells(1)
_FIRST_NIGHT = 1
"""The day by which the field bees have flown home."""


@dataclass(frozen=True)
class LowPoint:
    """The fewest bees a unit comes to, and when."""

    on: date
    bees: float


def bees_to_keep_warm(brood: float) -> float:
    """Give the bees that keep so many cells of brood warm on a cold night.

    They must cover it on both sides, and a unit has a least number to heat at all.
    """
    frames = brood / _FRAME_OF_BROOD
    cover = frames * table.BEE_FRAMES_PER_BROOD_FRAME.value * table.BEES_PER_FRAME.value
    return max(table.LEAST_BEES.value, cover) if brood > 0 else table.LEAST_BEES.value


def shakes_short(account: Account) -> int:
    """Give the shakes of nurse bees to add at once so that the brood lives; 0 for enough.

    Bees that come out in the first days do not heat yet and do not count (Stabentheiner et al.
    2010, PLoS ONE 5:e8967: heating is done by bees older than about two days). A frame of brood
    given since make-up ends the matter: whoever gave it saw the bees.
    """
    shaken = [given.stock.nurses for given in account.added]
    if 0 in shaken:
        return 0
    stock = account.stock
    stay = stock.bees * (1 - table.FIELD_BEES.value) + stock.nurses
    missing = bees_to_keep_warm(stock.open_cells + stock.sealed_cells) - stay - sum(shaken)
    return max(0, math.ceil(missing / table.BEES_PER_SHAKE.value))


def low_point(account: Account, expected_eggs: date | None = None) -> LowPoint:
    """Give the fewest bees after the first night, until a queen's own bees have come.

    The date is the first on which the bees are as few, to one in a thousand. Without a queen
    that lays or will lay the bees only get fewer, so it is the account's end.
    """
    end = _own_bees(account, expected_eggs)
    bees = account.projection.bees
    fewest = min(bees[_FIRST_NIGHT : end + 1])
    day = next(d for d in range(_FIRST_NIGHT, end + 1) if bees[d] <= fewest * _AS_FEW)
    return LowPoint(account.on(day), fewest)


def too_few_from(account: Account, expected_eggs: date | None = None) -> date | None:
    """Give the first date on which the unit has fewer bees than hold their own, None for never.

    A unit that is short from its first night is another matter: ``shakes_short``.
    """
    bees, least = account.projection.bees, table.LEAST_BEES.value
    end = _own_bees(account, expected_eggs)
    if min(bees[: end + 1]) >= least:
        return None
    falling = (
        day for day in range(_FIRST_NIGHT + 1, end + 1) if bees[day] < least <= bees[day - 1]
    )
    first = next(falling, None)
    return account.on(first) if first is not None else None


def brood_by(too_few: date) -> date:
    """Give the day by which sealed brood must be given, for all of it to be out in time."""
    return days_after(too_few, -SEALED)


def _own_bees(account: Account, expected_eggs: date | None) -> int:
    """Give the day by which the last queen's bees outnumber the dying, at most the last day."""
    last = len(account.projection.bees) - 1
    began = [span.first for span in account.layings if span.last is None]
    if expected_eggs is not None:
        began.append(account.day(expected_eggs))
    if not began:
        return last
    return max(_FIRST_NIGHT, min(last, max(began) + FROM_EGG + _FIRST_WEEK))


_FIRST_WEEK = 7
_AS_FEW = 1.001


class AnotherRound(StrEnum):
    """What to do with a unit without a queen."""

    CELL = "cell"
    """A new cell, and the bees will last."""
    CELL_AND_BROOD = "cell_and_brood"
    """A new cell with a frame of brood, without which the bees will not last."""
    COMBINE = "combine"
    """Its bees will not last even so."""


def another_round(account: Account, cell_on: date) -> AnotherRound | None:
    """Judge whether the bees last from a ripe cell placed on ``cell_on`` to its queen's own bees.

    None where that lies beyond the end of the account.
    """
    placed = account.day(cell_on)
    own_bees = placed + _EGGS_AFTER_CELL + FROM_EGG
    if placed < 1 or placed >= len(account.projection.bees):
        return None
    if _lasts(account.projection, placed, own_bees):
        return AnotherRound.CELL
    if _lasts(_with_brood(account, placed, own_bees), placed, own_bees):
        return AnotherRound.CELL_AND_BROOD
    return AnotherRound.COMBINE


_EGGS_AFTER_CELL = (
    table.EMERGENCE_FROM_GRAFT.days
    - table.RIPE_CELL_AGE.days
    + table.LAYING_LOOK_FROM_EMERGENCE.days
)
"""Days from a ripe cell to eggs."""


def _with_brood(account: Account, placed: int, own_bees: int) -> Projection:
    given = (*account.added, Added(placed, brood_frame()))
    return project(account.stock, account.layings, given, own_bees)


def _lasts(projected: Projection, placed: int, own_bees: int) -> bool:
    """Tell whether the bees stay enough; beyond that no more emerge and they only die."""
    known = projected.bees[placed : own_bees + 1]
    beyond = own_bees + 1 - placed - len(known)
    fewest_beyond = known[-1] * (1 - 1 / table.WORKER_LIFE.value) ** beyond
    return min(*known, fewest_beyond) >= table.LEAST_BEES.value
