"""What each kind of entry changes in a unit."""

from collections.abc import Callable

from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.units import colony, looks, rounds
from scheduling.units.state import UnitState

Effect = Callable[[UnitState, Entry], UnitState]
"""The unit after the entry, given the unit before it."""


def no_effect(state: UnitState, _entry: Entry) -> UnitState:
    """Leave the unit as it was."""
    return state


WITHOUT_EFFECT = {
    EntryKind.GRAFTED: "larvae are grafted into a batch, not into a unit",
    EntryKind.QUEEN_NOT_SEEN: "a queen that was not seen may still be there",
    EntryKind.BEES_ADDED: "they bring no young brood; the colony's account counts them",
    EntryKind.WEATHER_SEEN: "weather belongs to the yard and comes in beside the entries",
    EntryKind.FORAGE_SEEN: "forage belongs to the yard; the food account reads it there",
    EntryKind.YARD_TAKEN: "who goes to the yard changes nothing in its units",
    EntryKind.NOTE: "a note is for people",
    EntryKind.STRIKE: "a strike is worked off before the entries are folded",
}
"""Kinds that change nothing in a unit, and why."""

EFFECTS: dict[EntryKind, Effect] = {
    EntryKind.MADE_UP: rounds.made_up,
    EntryKind.CELL_PLACED: rounds.cell_placed,
    EntryKind.VIRGIN_PLACED: rounds.virgin_placed,
    EntryKind.CAGED_QUEEN_PLACED: rounds.caged_queen_placed,
    EntryKind.RAISING_OWN: rounds.raising_own,
    EntryKind.EMERGED: looks.emerged,
    EntryKind.NOT_EMERGED: looks.not_emerged,
    EntryKind.RELEASED: looks.released,
    EntryKind.STILL_CAGED: looks.still_caged,
    EntryKind.VIRGIN_SEEN: looks.virgin_seen,
    EntryKind.QUEEN_SEEN: looks.queen_seen,
    EntryKind.EGGS: looks.eggs,
    EntryKind.NO_EGGS: looks.no_eggs,
    EntryKind.SEALED_BROOD: looks.sealed_brood,
    EntryKind.CELL_FAILED: rounds.queen_lost,
    EntryKind.QUEEN_DEAD: rounds.queen_lost,
    EntryKind.QUEEN_TAKEN: rounds.queen_lost,
    EntryKind.DRONE_LAYER: rounds.drone_layer,
    EntryKind.LAYING_WORKERS: rounds.laying_workers,
    EntryKind.OWN_CELLS: rounds.own_cells,
    EntryKind.ABSCONDED: rounds.ended,
    EntryKind.DEAD: rounds.ended,
    EntryKind.COMBINED: rounds.ended,
    EntryKind.FED: colony.fed,
    EntryKind.STORES: colony.stores,
    EntryKind.TRAP_SET: colony.trap_set,
    EntryKind.TRAP_SERVICED: colony.trap_serviced,
    EntryKind.BROOD_ADDED: colony.brood_added,
    EntryKind.ROBBED: colony.robbed,
    EntryKind.PUT_OFF: colony.note_put_off,
    **dict.fromkeys(WITHOUT_EFFECT, no_effect),
}
