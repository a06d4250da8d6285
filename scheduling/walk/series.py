"""The chances of one queen day by day, out of those of many."""

from array import array
from collections.abc import Iterator

import numpy as np

from scheduling.by_day import ByDay, in_turn
from scheduling.walk.case import DAYS
from scheduling.walk.walk import Chances, Walked

Series = tuple[ByDay, ByDay, ByDay, ByDay]
"""Emerged, virgin, eggs and failed; 4 bytes a number, since a crew has many days and units."""


def series_of(walked: Walked) -> Iterator[Series]:
    """Give each queen's chances, in the order of the walk."""
    rows = (walked.emerged, walked.virgin, walked.eggs, walked.failed)
    return zip(*map(_of_each, rows), strict=True)


def _of_each(chances: Chances) -> list[ByDay]:
    return in_turn(array("f", chances.astype(np.float32).tobytes()), DAYS)
