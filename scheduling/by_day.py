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
    return [array("d", unit.tobytes()) for unit in amounts.T.copy()]
