"""The chances of one queen day by day, out of those of many."""

from array import array
from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from scheduling.walk.walk import Chances, Walked

if TYPE_CHECKING:
    Numbers = array[float]
else:
    Numbers = array

Series = tuple[Numbers, Numbers, Numbers, Numbers]
"""Emerged, virgin, eggs and failed; 4 bytes a number, since a crew has many days and units."""


def series_of(walked: Walked) -> Iterator[Series]:
    """Give each queen's chances, in the order of the walk."""
    rows = (walked.emerged, walked.virgin, walked.eggs, walked.failed)
    return zip(*(map(_numbers, _as_bytes(row)) for row in rows), strict=True)


def _as_bytes(row: Chances) -> Iterator[bytes]:
    return (queen.tobytes() for queen in np.ascontiguousarray(row, dtype=np.float32))


def _numbers(packed: bytes) -> Numbers:
    return array("f", packed)
