"""The kinds of entry, and what can be true of one; each one's record is in ``entry_facts``."""

from dataclasses import dataclass
from enum import Enum, Flag, StrEnum, auto

from scheduling.check_kinds import CheckKind
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
    EMPTIED = "emptied"
    """All that was in a unit was taken out, as before its box goes away."""
    WEATHER_SEEN = "weather_seen"
    FORAGE_SEEN = "forage_seen"
    """A nectar flow or a dearth at a yard, from that day on."""
    PUT_OFF = "put_off"
    YARD_TAKEN = "yard_taken"
    """A person takes on a yard's visit for that day."""
    NOTE = "note"
    MOVED = "moved"
    """A unit was carried to another place, with all that was noted of it."""
    STRIKE = "strike"
    """An earlier entry no longer counts; it stays in the log."""


class Scope(Enum):
    """What an entry is about."""

    UNIT = auto()
    UNIT_OR_YARD = auto()
    YARD = auto()
    BATCH = auto()
    ENTRY = auto()
    """Another entry of the log."""


class Subject(Enum):
    """What is spoken of: "oops" takes back the last word on the same subject."""

    QUEEN = auto()
    PLACED = auto()
    FOOD = auto()
    TRAP = auto()
    BOOST = auto()
    MISFORTUNE = auto()


class Noun(Flag):
    """What a finding is of, so that the word beside it says nothing more: "cell dud"."""

    NONE = 0
    CELL = auto()
    QUEEN = auto()
    BEES = auto()


class QueenNews(Enum):
    """What an entry tells of the unit's queen."""

    SEALED = auto()
    OUT = auto()
    VIRGIN = auto()
    SEEN = auto()
    NOT_SEEN = auto()
    NO_EGGS = auto()
    LAYS = auto()
    CELL_LOST = auto()
    LOST = auto()
    ANOTHER = auto()
    """Another queen or cell came in."""
    UNIT_ENDED = auto()


class FoodNews(Enum):
    """What an entry tells of the unit's food."""

    SEEN = auto()
    GIVEN = auto()
    UNKNOWN = auto()
    """Nobody knows any more how much is left."""


@dataclass(frozen=True)
class EntryFacts:
    """What is true of every entry of a kind. Its effect on a unit is in ``units/effects.py``.

    Attributes:
        value: the type of the value it may carry, None where it carries none.
        value_needed: it says nothing without its value.
        answers: the checks that are done with when this is told.
        opened: it cannot be told without opening the unit.
        starts: it sets a clock.
        scope: what it is about.
        every_unit: said of a yard, it holds for each unit there.
        bears_on_others: it changes what is due at other places than its own.
        subject: what it speaks of; None where it has a subject of its own.
        queen: what it tells of the queen.
        food: what it tells of the food.
        nouns: what it is of.
        opposite: what its denial says; None where it cannot be denied in one entry.
        contradicts: what cannot be true of one unit on one day beside it, either way round.
        looked_for_at: the checks at which a keeper looks for this, so that "all" are those units.
        whole_yard: it is commonly done to all units of a yard at once.
        takes_details: numbers and days that are said beside it belong to it.
    """

    value: type[Value] | None = None
    value_needed: bool = False
    answers: frozenset[CheckKind] = frozenset()
    opened: bool = False
    starts: bool = False
    scope: Scope = Scope.UNIT
    every_unit: bool = False
    bears_on_others: bool = False
    subject: Subject | None = None
    queen: QueenNews | None = None
    food: FoodNews | None = None
    nouns: Noun = Noun.NONE
    opposite: EntryKind | None = None
    contradicts: frozenset[EntryKind] = frozenset()
    looked_for_at: frozenset[CheckKind] = frozenset()
    whole_yard: bool = False
    takes_details: bool = False
