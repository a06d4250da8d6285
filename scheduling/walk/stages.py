"""What the walk goes by: how long each stage takes, and how a queen may fail in it."""

from dataclasses import dataclass
from math import erf, log, sqrt

from scheduling.trade import table
from scheduling.trade.constant import Constant

CENTRAL_SHARE_SPAN = 2 * 1.959963984540054
"""Width of the central 95 % of a normal distribution, in standard deviations."""

NEGLIGIBLE = 1e-4
"""A day less likely than this is left out, and its chance shared among the others."""


@dataclass(frozen=True)
class Spread:
    """The chance of each number of days from ``first`` on; the chances sum to 1."""

    first: int
    chances: tuple[float, ...]

    @property
    def last(self) -> int:
        """The most days it takes."""
        return self.first + len(self.chances) - 1

    @property
    def mean(self) -> float:
        """The days it takes on average."""
        return sum((self.first + n) * chance for n, chance in enumerate(self.chances))

    def moved(self, days: int) -> "Spread":
        """Give the same spread ``days`` later."""
        return Spread(self.first + days, self.chances)


def certain(days: int) -> Spread:
    """Give the spread of what always takes that many days."""
    return Spread(days, (1.0,))


def log_normal(figure: Constant) -> Spread:
    """Fit a log-normal spread to a published centre and range, cut into whole days.

    The centre is the median, and the highest stands to the lowest figure as the ends of the
    central 95 %. A number of days has the chance from half a day before it to half a day after.
    The onset of laying was found to be log-normal (Woyke et al. 2008, as cited in
    http://honeybee.drawwing.org/book/queen-egg-laying); the same form is taken for each stage.
    """
    days = range(1, 2 * int(figure.high) + 1)
    chances = {day: _up_to(day + 0.5, figure) - _up_to(day - 0.5, figure) for day in days}
    kept = {day: chance for day, chance in chances.items() if chance >= NEGLIGIBLE}
    whole = sum(kept.values())
    return Spread(min(kept), tuple(chance / whole for chance in kept.values()))


def shape(figure: Constant) -> float:
    """Give the standard deviation of the logarithm of the days."""
    return log(figure.high / figure.low) / CENTRAL_SHARE_SPAN


def _up_to(days: float, figure: Constant) -> float:
    """Give the chance that it takes at most so many days."""
    return (1 + erf(log(days / figure.value) / shape(figure) / sqrt(2))) / 2


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
