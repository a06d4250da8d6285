"""An amount for each day, packed close: a crew has too many for each to be an object."""

from array import array
from collections.abc import Iterable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    ByDay = array[float]
else:
    ByDay = array


def by_day(amounts: Iterable[float]) -> ByDay:
    """Pack the amounts of one unit."""
    return array("d", amounts)


def by_day_of_each(amounts: "NDArray[np.float64]") -> list[ByDay]:
    """Pack the amounts of each of many units, which stand by day and unit."""
    return in_turn(array("d", amounts.T.tobytes()), len(amounts))


def in_turn(packed: ByDay, days: int) -> list[ByDay]:
    """Cut the days of one unit after the other into those of each."""
    return [packed[first : first + days] for first in range(0, len(packed), days)]
