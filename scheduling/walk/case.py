"""What the walk is told of one queen, in days and without dates."""

from dataclasses import dataclass
from enum import StrEnum

from scheduling.walk.spread import Spread
from scheduling.walk.stages import PUBLISHED

LONGEST_EMERGENCE = 8
"""The most days over which an emergence may be spread."""

DAYS = LONGEST_EMERGENCE + PUBLISHED.mates_until + PUBLISHED.to_first_egg.last
"""Days that are walked: by then every queen lays or has failed."""

GOOD_WEATHER = (1.0,) * DAYS


class Sight(StrEnum):
    """What a look into the unit showed, as far as it narrows the walk."""

    SEALED = "sealed"
    OUT = "out"
    """The cell is open; she came out on that day or before it."""
    VIRGIN = "virgin"
    QUEEN = "queen"
    """A queen, without a word on eggs."""
    NO_QUEEN = "no_queen"
    """Looked for her and did not see her."""
    NO_EGGS = "no_eggs"
    EGGS = "eggs"
    DRONE_BROOD = "drone_brood"


@dataclass(frozen=True, slots=True)
class Case:
    """One queen. Day 0 is the first on which she may emerge, or did.

    Attributes:
        emergence: the chance of each day of emergence; its first is day 0.
        from_cell: she was placed as a cell, which may be a dud.
        flying: how much of a mating day each day is, from 0 to 1, one for each of ``DAYS``.
        seen: what was seen, with its day, in the order of the days.

    Raises:
        ValueError: emergence is spread too widely, the weather is not of ``DAYS`` days, or a
            sight lies outside them.

    """

    emergence: Spread
    from_cell: bool = True
    flying: tuple[float, ...] = GOOD_WEATHER
    seen: tuple[tuple[int, Sight], ...] = ()

    def __hash__(self) -> int:
        """Tell most cases apart by the weather of some days; to hash all takes longer."""
        return hash((self.from_cell, self.seen, self.flying[:LONGEST_EMERGENCE]))

    def __post_init__(self) -> None:
        if self.emergence.first != 0 or len(self.emergence.chances) > LONGEST_EMERGENCE:
            raise ValueError(f"emergence must be spread over days 0 to {LONGEST_EMERGENCE - 1}")
        if len(self.flying) != DAYS:
            raise ValueError(f"weather of {len(self.flying)} days, not of {DAYS}")
        if [day for day, _sight in self.seen if not 0 <= day < DAYS]:
            raise ValueError(f"she is walked on days 0 to {DAYS - 1} and seen on no other")
