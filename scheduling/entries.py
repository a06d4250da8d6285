"""The log: things that somebody saw or did, only ever added."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime
from operator import attrgetter

from scheduling import values
from scheduling.places import Place
from scheduling.term import Term
from scheduling.values import Value


class EntryKind(Term):
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


@dataclass(frozen=True)
class Entry:
    """One thing somebody saw or did.

    Attributes:
        uid: the entry's own name, the same in every database and export.
        place: the unit, batch or yard it is about.
        kind: what it says.
        value: what was measured, or None when nothing was or it is unknown.
        on: the yard's local date it speaks of.
        recorded_at: the instant it was written down (aware, UTC).
        person: who said it.
        channel: the channel it came over ("console", "telegram", "import").
        message: the channel's id of the message it came from, if any.
        note: the person's own further words; for a ``note`` the whole of it.

    Raises:
        ValueError: the value does not belong to the kind, or the instant is not aware.

    """

    uid: str
    place: Place
    kind: EntryKind
    value: Value | None
    on: date
    recorded_at: datetime
    person: str
    channel: str = "import"
    message: str | None = None
    note: str = ""

    def __post_init__(self) -> None:
        check_value(self.kind, self.value)
        if self.recorded_at.utcoffset() is None:
            raise ValueError("recorded_at must be an aware instant")


def check_value(kind: EntryKind, value: Value | None) -> None:
    """Refuse a value that does not belong to the kind.

    Raises:
        ValueError: the kind carries another value, carries none, or needs one and has none.

    """
    if value is None:
        if kind in VALUE_NEEDED:
            raise ValueError(f"{kind} says nothing without its value")
        return
    if not isinstance(value, VALUE_TYPES.get(kind, type(None))):
        raise ValueError(f"{kind} cannot carry {type(value).__name__}")


_RECORDED_AT = attrgetter("recorded_at")
_ON = attrgetter("on")


def standing(entries: Iterable[Entry]) -> list[Entry]:
    """Entries that count, in the order they happened: without strikes and what they strike.

    A strike may itself be struck, which puts the first entry back.
    """
    log = sorted(entries, key=_RECORDED_AT)
    strikes = [entry for entry in log if entry.kind is EntryKind.STRIKE]
    gone = struck(strikes) | {strike.uid for strike in strikes}
    kept = [entry for entry in log if entry.uid not in gone] if gone else log
    # Sorting keeps what is equal in its order, so entries of one day stay as they were recorded.
    return sorted(kept, key=_ON)


def struck(entries: Iterable[Entry]) -> frozenset[str]:
    """Uids of what no longer counts: entries that a strike which counts itself names."""
    gone: set[str] = set()
    strikes = [entry for entry in entries if entry.kind is EntryKind.STRIKE]
    for entry in sorted(strikes, key=_RECORDED_AT)[::-1]:
        if entry.uid not in gone:
            assert isinstance(entry.value, values.Struck)  # noqa: S101 - checked when made
            gone.add(entry.value.uid)
    return frozenset(gone)
