"""What a unit is now, folded from its entries."""

from collections.abc import Iterable, Sequence
from datetime import date

from scheduling.entries import Entry
from scheduling.entry_facts import ENTRY_FACTS
from scheduling.places import Place
from scheduling.units.colony import without_answered
from scheduling.units.effects import EFFECTS
from scheduling.units.state import Stage, UnitState

__all__ = ["Stage", "UnitState", "fold"]


def fold(place: Place, entries: Iterable[Entry], days_not_flying: Iterable[date] = ()) -> UnitState:
    """Tell what a unit is now.

    ``entries`` are the standing entries about the unit in the order they happened;
    ``days_not_flying`` the days on which, by the keeper's word, no queen could fly there.
    """
    told = tuple(entries)
    state = UnitState(place)
    for entry in told:
        state = _after(state, entry)
    grounded = tuple(sorted(set(days_not_flying))) if days_not_flying else ()
    return state._replace(entries=told, days_not_flying=grounded, looked_on=_looked_on(told))


def _looked_on(told: Sequence[Entry]) -> date | None:
    for entry in reversed(told):
        if ENTRY_FACTS[entry.kind].opened:
            return entry.on
    return None


def _after(state: UnitState, entry: Entry) -> UnitState:
    after = EFFECTS[entry.kind](state, entry)
    if not after.put_offs:
        return after
    put_offs = without_answered(after.put_offs, entry.kind)
    return after if put_offs == after.put_offs else after._replace(put_offs=put_offs)
