"""The kinds of entry."""

from enum import StrEnum

from scheduling import values
from scheduling.values import Value


class EntryKind(StrEnum):
    """The closed set of things an entry can say. Kinds are added when the trade asks for more."""

    MADE_UP = "made_up"
    GRAFTED = "grafted"
    CELL_PLACED = "cell_placed"
    VIRGIN_PLACED = "virgin_placed"
    CAGED_QUEEN_PLACED = "caged_queen_placed"
    RAISING_OWN = "raising_own"
    EMERGED = "emerged"
    NOT_EMERGED = "not_emerged"
    CELL_FAILED = "cell_failed"
    RELEASED = "released"
    STILL_CAGED = "still_caged"
    QUEEN_DEAD = "queen_dead"
    VIRGIN_SEEN = "virgin_seen"
    QUEEN_SEEN = "queen_seen"
    QUEEN_NOT_SEEN = "queen_not_seen"
    EGGS = "eggs"
    NO_EGGS = "no_eggs"
    SEALED_BROOD = "sealed_brood"
    DRONE_LAYER = "drone_layer"
    LAYING_WORKERS = "laying_workers"
    OWN_CELLS = "own_cells"
    FED = "fed"
    STORES = "stores"
    TRAP_SET = "trap_set"
    TRAP_SERVICED = "trap_serviced"
    BROOD_ADDED = "brood_added"
    BEES_ADDED = "bees_added"
    QUEEN_TAKEN = "queen_taken"
    ROBBED = "robbed"
    ABSCONDED = "absconded"
    DEAD = "dead"
    COMBINED = "combined"
    WEATHER_SEEN = "weather_seen"
    FORAGE_SEEN = "forage_seen"
    """A nectar flow or a dearth at a yard, from that day on."""
    PUT_OFF = "put_off"
    YARD_TAKEN = "yard_taken"
    """A person takes on a yard's visit for that day."""
    NOTE = "note"
    STRIKE = "strike"
    """An earlier entry no longer counts; it stays in the log."""


VALUE_TYPES: dict[EntryKind, type[Value]] = {
    EntryKind.MADE_UP: values.MakeUp,
    EntryKind.GRAFTED: values.Graft,
    EntryKind.CELL_PLACED: values.CellAge,
    EntryKind.VIRGIN_PLACED: values.VirginAge,
    EntryKind.SEALED_BROOD: values.Brood,
    EntryKind.FED: values.Feed,
    EntryKind.STORES: values.Stores,
    EntryKind.TRAP_SERVICED: values.TrapCount,
    EntryKind.QUEEN_TAKEN: values.Taken,
    EntryKind.WEATHER_SEEN: values.DayWeather,
    EntryKind.FORAGE_SEEN: values.YardForage,
    EntryKind.PUT_OFF: values.PutOff,
    EntryKind.STRIKE: values.Struck,
}
"""The value each kind may carry; kinds not named here carry none."""

VALUE_NEEDED = frozenset(
    {
        EntryKind.STORES,
        EntryKind.WEATHER_SEEN,
        EntryKind.FORAGE_SEEN,
        EntryKind.PUT_OFF,
        EntryKind.STRIKE,
    }
)
"""Kinds that say nothing without their value."""
