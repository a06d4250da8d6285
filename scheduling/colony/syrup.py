"""How much sugar is in syrup, from the published density of sucrose solutions."""

import re
from bisect import bisect_right

from scheduling.trade import table

_RATIO = re.compile(r"\s*(?P<sugar>\d+(?:\.\d+)?)\s*(?::|to|/)\s*(?P<water>\d+(?:\.\d+)?)\s*")

USUAL_RATIO = "1:1"
"""The ratio of sugar to water by weight in which mating units are fed."""

USUAL_PERCENT = 50.0
"""Its sugar, per cent by weight."""


def sugar_percent(ratio: str) -> float | None:
    """Give the sugar per cent by weight in syrup of "2:1" (sugar to water, by weight).

    None where the text is no such ratio.
    """
    found = _RATIO.fullmatch(ratio)
    if found is None:
        return None
    sugar, water = float(found["sugar"]), float(found["water"])
    return 100 * sugar / (sugar + water) if sugar + water > 0 else None


def density(percent: float) -> float:
    """Give kilograms per litre at 20 C of a solution with so much sugar, per cent by weight.

    Above the last row of the published table, which no syrup reaches, the last row counts.
    """
    rows = table.SYRUP_DENSITY
    after = min(bisect_right(rows, percent, key=lambda row: row[0]), len(rows) - 1)
    (low, at_low), (high, at_high) = rows[after - 1], rows[after]
    share = (min(percent, high) - low) / (high - low)
    return (at_low + share * (at_high - at_low)) / 1000


def sugar_per_litre(percent: float) -> float:
    """Give the kilograms of sugar in a litre of syrup, from its sugar per cent by weight."""
    return density(percent) * percent / 100
