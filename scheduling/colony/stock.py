"""Bees and brood put into a unit, counted from the frames a keeper tells of."""

from dataclasses import dataclass

from scheduling.trade import table
from scheduling.trade.constant import Constant
from scheduling.values import MakeUp


@dataclass(frozen=True, slots=True)
class Stock:
    """Bees and cells of brood that go into a unit on one day.

    Attributes:
        bees: bees that sit on the combs, field bees among them.
        nurses: young bees shaken in from open brood; these stay.
        open_cells: eggs and larvae.
        sealed_cells: sealed brood.

    """

    bees: float = 0
    nurses: float = 0
    open_cells: float = 0
    sealed_cells: float = 0


def stocked(told: MakeUp) -> Stock:
    """Count what a unit was made up with; of what was not told the usual is taken."""
    brood = brood_cells(_or_usual(told.brood_frames, table.USUAL_BROOD))
    sealed = _or_usual(told.sealed_share, table.USUAL_SEALED)
    return Stock(
        bees=_or_usual(told.bee_frames, table.USUAL_BEES) * table.BEES_PER_FRAME.value,
        nurses=_or_usual(told.nurse_shakes, table.USUAL_SHAKES) * table.BEES_PER_SHAKE.value,
        open_cells=brood * (1 - sealed),
        sealed_cells=brood * sealed,
    )


def _or_usual(told: float | None, usual: Constant) -> float:
    return usual.value if told is None else told


def brood_frame() -> Stock:
    """Count a usual frame of brood given without its bees."""
    brood = brood_cells(table.USUAL_BROOD.value)
    sealed = table.USUAL_SEALED.value
    return Stock(open_cells=brood * (1 - sealed), sealed_cells=brood * sealed)


def shake() -> Stock:
    """Count one shake of nurse bees."""
    return Stock(nurses=table.BEES_PER_SHAKE.value)


def brood_cells(frames: float) -> float:
    """Give the cells of brood on so many deep frames of brood."""
    return frames * 2 * cells_per_side() * table.BROOD_IN_COMB.value


def cells_per_side() -> float:
    """Give the worker cells on one side of a deep frame."""
    return table.DEEP_SIDE.value * table.WORKER_CELLS.value
