"""Whether a unit was fed more than it should have."""

from datetime import date

from scheduling.checks.colonies import colony_of, expected_eggs
from scheduling.colony.feeding import most
from scheduling.units.state import UnitState

_A_SPOONFUL = 0.01
"""Kilograms that nobody could tell."""


def overfed(state: UnitState, day: date) -> bool:
    """Tell whether, by its account, the unit has more than it may be filled with on a day."""
    reserve = colony_of(state, expected_eggs(state)).food
    return reserve is not None and reserve.stores(day) > most() + _A_SPOONFUL
