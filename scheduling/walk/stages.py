"""What the walk goes by: how long each stage takes, and how a queen may fail in it."""

from dataclasses import dataclass

from scheduling.trade import table
from scheduling.walk.spread import Spread, log_normal


@dataclass(frozen=True)
class Stages:
    """The figures of a walk.

    Attributes:
        maturing: days from emergence until she is old enough to mate.
        flight_chance: chance that a mature virgin mates on one whole day of flying weather.
        to_first_egg: days from mating to the first egg, at least one.
        emerge: share of cells from which a queen emerges.
        back: share of mating queens that come home.
        lost_a_day: share of young queens lost each day in the unit.
        mates_well_until: age in days up to which every mating is a good one.
        mates_until: age in days from which none is; between the two the share falls evenly.
        queen_missed: share of looks that miss a queen who is there.
        eggs_missed: share of looks that miss eggs that are there.

    """

    maturing: Spread
    flight_chance: float
    to_first_egg: Spread
    emerge: float
    back: float
    lost_a_day: float
    mates_well_until: int
    mates_until: int
    queen_missed: float
    eggs_missed: float

    def mates_well(self, age: int) -> float:
        """Give the share of good matings among queens that mate at ``age`` days."""
        span = self.mates_until - self.mates_well_until
        return min(1.0, max(0.0, (self.mates_until - age) / span))


def fitted_flight_chance(maturing: Spread, to_first_egg: Spread, mean_first_egg: float) -> float:
    """Fit the chance of mating on a flying day so that the mean first egg is as published.

    A virgin may mate on the very day she is old enough. With the same chance on each day she
    waits ``(1 - chance) / chance`` days on average, which is what maturing and the days from
    mating to the egg leave of the published mean.

    Raises:
        ValueError: they leave nothing.

    """
    waiting = mean_first_egg - maturing.mean - to_first_egg.mean
    if waiting < 0:
        raise ValueError("the stages take longer than the whole")
    return 1 / (1 + waiting)


def published() -> Stages:
    """Give the stages as fitted to the table of the trade."""
    maturing = log_normal(table.MATURE_FROM_EMERGENCE)
    to_first_egg = log_normal(table.FIRST_EGG_FROM_MATING)
    mean_first_egg = table.FIRST_EGG_FROM_EMERGENCE.value
    return Stages(
        maturing=maturing,
        flight_chance=fitted_flight_chance(maturing, to_first_egg, mean_first_egg),
        to_first_egg=to_first_egg,
        emerge=table.CELLS_EMERGED.value,
        back=table.BACK_FROM_MATING.value,
        lost_a_day=table.YOUNG_QUEEN_LOST_A_DAY.value,
        mates_well_until=int(table.GIVE_UP_FROM_EMERGENCE.low),
        mates_until=int(table.GIVE_UP_FROM_EMERGENCE.high),
        queen_missed=table.QUEEN_MISSED.value,
        eggs_missed=table.EGGS_MISSED.value,
    )


PUBLISHED = published()
EMERGENCE = log_normal(table.EMERGENCE_FROM_GRAFT).moved(-table.EMERGENCE_FROM_GRAFT.days)
"""Days from the day a grafted cell's queen is due until she emerges, early ones negative."""
OWN_EMERGENCE = log_normal(table.OWN_EMERGENCE).moved(-table.OWN_EMERGENCE.days)
"""The same of a queen that a unit raises itself."""
