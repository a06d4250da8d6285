"""A unit after an entry, made without setting each field of it again."""

from typing import TYPE_CHECKING, Any

from scheduling.places import Place
from scheduling.units.state import UnitState

if TYPE_CHECKING:
    from dataclasses import replace as changed

    def blank(place: Place) -> UnitState:
        """Give a unit of which nothing is known."""
        return UnitState(place)
else:

    def changed(state: UnitState, **changes: Any) -> UnitState:
        """Give the unit with some fields changed, as ``dataclasses.replace`` does.

        That function sets all the fields one by one; over a season's entries it took most of
        the time in which a calendar is worked out.
        """
        after = object.__new__(UnitState)
        object.__setattr__(after, "__dict__", state.__dict__ | changes)
        return after

    def blank(place: Place) -> UnitState:
        """Give a unit of which nothing is known; every other field is read off the class."""
        state = object.__new__(UnitState)
        state.__dict__["place"] = place
        return state


__all__ = ["blank", "changed"]
