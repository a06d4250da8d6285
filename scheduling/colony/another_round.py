"""Whether a unit that lost its queen is worth another round, or is better combined."""

from datetime import date
from enum import StrEnum

from scheduling.colony.account import Account
from scheduling.colony.projection import FROM_EGG, Projection, project
from scheduling.colony.stock import brood_frame
from scheduling.colony.unit_make_up import Added
from scheduling.trade import table


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
