"""How much to feed, in litres and in the keeper's own feeders."""

import math
from dataclasses import dataclass

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
