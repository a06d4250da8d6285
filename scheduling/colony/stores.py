"""What food weighs as stores, what bees eat of it, and how much syrup a unit may have."""

import math
import re
from bisect import bisect_right
from dataclasses import dataclass
from functools import lru_cache

from scheduling.trade import table
from scheduling.values import Feed

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


def kilograms(deep_frames: float) -> float:
    """Give the weight of stores in so many full deep frames."""
    return deep_frames * table.HONEY_FRAME.value


def deep_frames(kilograms: float) -> float:
    """Give the full deep frames that so many kilograms of stores fill."""
    return kilograms / table.HONEY_FRAME.value


def stores_of_syrup(litres: float, ratio: str) -> float | None:
    """Give the kilograms of stores that bees make of syrup, the water driven off.

    None where the ratio is not one of sugar to water.
    """
    sugar = _sugar_in_a_litre(ratio)
    return _stores_of_sugar(litres * sugar) if sugar is not None else None


def stores_of_usual_syrup(litres: float) -> float:
    """Give the kilograms of stores that bees make of syrup in the usual ratio."""
    return _stores_of_sugar(litres * sugar_per_litre(USUAL_PERCENT))


def _stores_of_sugar(kilograms: float) -> float:
    return kilograms * table.STORES_PER_SUGAR.value


@lru_cache(maxsize=256)
def _sugar_in_a_litre(ratio: str) -> float | None:
    percent = sugar_percent(ratio)
    return sugar_per_litre(percent) if percent is not None else None


def stores_of(feed: Feed | None) -> float | None:
    """Give the kilograms of stores that a feed comes to; None where its amount is not known."""
    if feed is None or feed.syrup_litres is feed.honey_frames is feed.fondant_kg is None:
        return None
    syrup = stores_of_syrup(feed.syrup_litres or 0, feed.ratio or USUAL_RATIO)
    if syrup is None:
        return None
    fondant_sugar = (feed.fondant_kg or 0) * table.SUGAR_IN_FONDANT.value
    return syrup + kilograms(feed.honey_frames or 0) + _stores_of_sugar(fondant_sugar)


def eaten(bees: float, brood: float, *, kept_in: bool = False) -> float:
    """Give the kilograms of stores eaten in a day.

    ``kept_in`` tells that cold or wet kept the bees from flying.
    """
    grams = bees * (_HEAD_IN_COLD if kept_in else _HEAD) + brood * _BROOD
    return grams / 1000 / 1000


_HEAD, _HEAD_IN_COLD = table.EATEN_BY_BEES.value, table.EATEN_IN_COLD.value
_BROOD = table.EATEN_BY_BROOD.value


@dataclass(frozen=True, slots=True)
class Dose:
    """Syrup that brings stores to where they should be, no less and no more.

    Attributes:
        least_litres: what brings them to the least a unit may have.
        most_litres: what fills them as far as a unit may be filled.
        ratio: sugar to water by weight.
        feeder_litres: what one of the keeper's feeders holds.

    """

    least_litres: float
    most_litres: float
    ratio: str = "1:1"
    feeder_litres: float = table.FEEDER.value

    @property
    def feeders(self) -> int | None:
        """The most whole feeders that lie between the two, None where none do."""
        whole = math.floor(self.most_litres / self.feeder_litres + 1e-9)
        return whole if whole * self.feeder_litres >= max(self.least_litres, 1e-9) else None

    @property
    def litres(self) -> float:
        """The litres to give: whole feeders where they fit, else as much as may be."""
        return self.most_litres if self.feeders is None else self.feeders * self.feeder_litres


def dose_for(stores: float, feeder_litres: float = table.FEEDER.value) -> Dose | None:
    """Give the syrup for a unit with so many kilograms of stores; None where it has enough."""
    if stores >= MOST_KILOGRAMS:
        return None
    short, room = _litres(max(0.0, LEAST_KILOGRAMS - stores)), _litres(MOST_KILOGRAMS - stores)
    return Dose(short, room, USUAL_RATIO, feeder_litres)


def _litres(stores: float) -> float:
    return stores / _IN_A_LITRE


_IN_A_LITRE = stores_of_usual_syrup(1)
LEAST_KILOGRAMS = kilograms(table.LEAST_STORES.value)
"""Kilograms of stores under which a unit may not fall."""

MOST_KILOGRAMS = kilograms(table.WELL_STORED.value)
"""Kilograms of stores at which feeding stops."""
