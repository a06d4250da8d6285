"""How much syrup brings a unit's stores between the least and the most it may have."""

from scheduling.checks.dose import Dose
from scheduling.colony.stores import kilograms, stores_of_usual_syrup
from scheduling.colony.syrup import USUAL_RATIO
from scheduling.trade import table


def least() -> float:
    """Give the kilograms of stores under which a unit may not fall."""
    return _LEAST


def most() -> float:
    """Give the kilograms of stores at which feeding stops."""
    return _MOST


def dose_for(stores: float) -> Dose | None:
    """Give the syrup for a unit with so many kilograms of stores; None where it has enough."""
    if stores >= most():
        return None
    return Dose(_litres(max(0.0, least() - stores)), _litres(most() - stores), USUAL_RATIO)


def _litres(stores: float) -> float:
    return stores / _IN_A_LITRE


_IN_A_LITRE = stores_of_usual_syrup(1)
_LEAST = kilograms(table.LEAST_STORES.value)
_MOST = kilograms(table.WELL_STORED.value)
