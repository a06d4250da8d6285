"""What may be expected of one unit's queen, by date."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date

from scheduling.trade.constant import Window
from scheduling.walk.odds import NO_SHIFT, Shift

NOTHING_LEFT = 1e-6
"""What is left of a chance that has been rounded away."""


@dataclass(frozen=True, slots=True)
class QueenForecast:
    """The chances of a queen who has not been seen to lay, given all that was seen.

    Before the last look a day's chances are those that were known then.

    Attributes:
        first: the date of the first of the chances.
        emerged: chance that she is out of her cell, whatever became of her since.
        virgin: chance that she is out, there, and not mated.
        eggs: chance of eggs to be seen.
        failed: chance of a dud cell, of a queen lost, or of one too old to mate well.
        look: when to look for eggs, going by the weather.
        fair_look: when it would be if every day had flying weather.
        give_up: the date on which she is given up if there are no eggs by then.
        grounded: dates on which she could not fly, oldest first.
        weather_known: whether anything is known of the weather of her time.
        shift: by how many days the crew's own odds move what is published.

    """

    first: date
    emerged: Sequence[float] = field(repr=False)
    virgin: Sequence[float] = field(repr=False)
    eggs: Sequence[float] = field(repr=False)
    failed: Sequence[float] = field(repr=False)
    look: Window
    fair_look: Window
    give_up: date
    grounded: tuple[date, ...] = ()
    weather_known: bool = False
    shift: Shift = NO_SHIFT

    @property
    def still_lays(self) -> float:
        """Chance that she will ever lay, or does so already."""
        return self.eggs[-1]

    def eggs_by(self, day: date) -> float:
        """Give the chance that eggs can be seen on ``day`` if she has not failed."""
        number = self._number(day)
        alive = 1 - self.failed[number]
        return self.eggs[number] / alive if alive > NOTHING_LEFT else 0.0

    def emerged_by(self, day: date) -> float:
        """Give the chance that on ``day`` she is out of her cell."""
        return self.emerged[self._number(day)]

    def days_without_flying(self, day: date) -> int:
        """Count the days before ``day`` on which she was old enough to fly and could not."""
        return sum(1 for grounded in self.grounded if grounded < day)

    def _number(self, day: date) -> int:
        return min(max((day - self.first).days, 0), len(self.eggs) - 1)
