"""How much syrup brings a unit's stores between the least and the most it may have."""

import math
from dataclasses import dataclass

from scheduling.colony.stores import kilograms, stores_of_usual_syrup
from scheduling.colony.syrup import USUAL_RATIO
from scheduling.trade import table


@dataclass(frozen=True, slots=True)
class Dose:
    """Syrup that brings stores to where they should be, no less and no more.

    Attributes:
        least_litres: what brings them to the least a unit may have.
        most_litres: what fills them as far as a unit may be filled.
        ratio: sugar to water by weight.
        feeder_litres: what one of the keeper's feeders holds.

    """

    least_litres: float
    most_litres: float
    ratio: str = "1:1"
    feeder_litres: float = table.FEEDER.value

    @property
    def feeders(self) -> int | None:
        """The most whole feeders that lie between the two, None where none do."""
        whole = math.floor(self.most_litres / self.feeder_litres + 1e-9)
        return whole if whole * self.feeder_litres >= max(self.least_litres, 1e-9) else None

    @property
    def litres(self) -> float:
        """The litres to give: whole feeders where they fit, else as much as may be."""
        return self.most_litres if self.feeders is None else self.feeders * self.feeder_litres


def least() -> float:
    """Give the kilograms of stores under which a unit may not fall."""
    return _LEAST


def most() -> float:
    """Give the kilograms of stores at which feeding stops."""
    return _MOST


def dose_for(stores: float, feeder_litres: float = table.FEEDER.value) -> Dose | None:
    """Give the syrup for a unit with so many kilograms of stores; None where it has enough."""
    if stores >= _MOST:
        return None
    short, room = _litres(max(0.0, _LEAST - stores)), _litres(_MOST - stores)
    return Dose(short, room, USUAL_RATIO, feeder_litres)


def _litres(stores: float) -> float:
    return stores / _IN_A_LITRE


_IN_A_LITRE = stores_of_usual_syrup(1)
_LEAST = kilograms(table.LEAST_STORES.value)
_MOST = kilograms(table.WELL_STORED.value)
