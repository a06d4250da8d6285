"""What food weighs as stores: frames, syrup, fondant; and what bees and brood eat of it."""

from functools import lru_cache

from scheduling.colony.syrup import USUAL_PERCENT, USUAL_RATIO, sugar_per_litre, sugar_percent
from scheduling.trade import table
from scheduling.values import Feed


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
