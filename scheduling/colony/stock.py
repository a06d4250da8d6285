"""Bees and brood put into a unit, counted from the frames a keeper tells of."""

from dataclasses import dataclass
from functools import lru_cache
from operator import attrgetter

from scheduling.trade import table
from scheduling.values import MakeUp


@dataclass(frozen=True, slots=True)
class Stock:
    """Bees and cells of brood that go into a unit on one day.

    Attributes:
        bees: bees that sit on the combs, field bees among them.
        nurses: young bees shaken in from open brood; these stay.
        open_cells: eggs and larvae.
        sealed_cells: sealed brood.
        assumed: the fields of ``MakeUp`` that were not told and were taken as the trade has them.

    """

    bees: float = 0
    nurses: float = 0
    open_cells: float = 0
    sealed_cells: float = 0
    assumed: frozenset[str] = frozenset()


USUAL = MakeUp(
    brood_frames=table.USUAL_BROOD.value,
    sealed_share=table.USUAL_SEALED.value,
    bee_frames=table.USUAL_BEES.value,
    nurse_shakes=table.USUAL_SHAKES.value,
)
"""What a unit is stocked with where nothing was told. Food has no usual amount."""


@lru_cache(maxsize=1024)
def stocked(make_up: MakeUp | None) -> Stock:
    """Count what a unit was made up with; what was not told is taken as usual and named.

    A crew stocks many units alike: what was counted of the last make-ups is kept.
    """
    told = _IN_ORDER(make_up or MakeUp())
    each = zip(told, _IN_ORDER(USUAL), strict=True)
    brood_frames, sealed, bee_frames, shakes = [u if t is None else t for t, u in each]
    brood = brood_cells(brood_frames)
    return Stock(
        bees=bee_frames * table.BEES_PER_FRAME.value,
        nurses=shakes * table.BEES_PER_SHAKE.value,
        open_cells=brood * (1 - sealed),
        sealed_cells=brood * sealed,
        assumed=frozenset([n for n, amount in zip(_NAMES, told, strict=True) if amount is None]),
    )


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


_NAMES = ("brood_frames", "sealed_share", "bee_frames", "nurse_shakes")
_IN_ORDER = attrgetter(*_NAMES)
