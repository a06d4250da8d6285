"""How long something takes, as a chance for each whole number of days."""

from dataclasses import dataclass
from math import erf, log, sqrt

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
