"""What a phrase of the lexicon stands for."""

from dataclasses import dataclass
from enum import StrEnum

from scheduling.entry_kinds import EntryKind
from scheduling.values import Value


class Hint(StrEnum):
    """A word whose meaning the unit, its open checks or its neighbour words decide."""

    OUT = "out"
    """From the cell or from the cage."""
    NOT_OUT = "not_out"
    DEAD = "dead"
    """The cell, the queen or the whole unit."""
    SEALED = "sealed"
    """The queen's cell or the brood."""
    NONE = "none"
    """The opposite of what was last said."""
    NO = "no"
    """A bare "no" or "not": answers what was last said, and nothing else."""
    NOT_YET = "not_yet"
    QUEEN = "queen"
    """Seen, unless the sentence says what became of her."""
    VIRGIN = "virgin"
    """Seen, or put in."""
    CELL = "cell"
    TRAP = "trap"
    FOOD = "food"
    HONEY = "honey"
    BROOD = "brood"
    BEES = "bees"
    TAKE = "take"
    """A verb of taking: with the queen, she was taken."""
    GIVEN = "given"
    """A verb of giving: its object says what was given."""
    FONDANT = "fondant"


class Role(StrEnum):
    """What a phrase does in a sentence when it is not itself a finding."""

    QUIET = "quiet"
    """May be left out without loss."""
    REMARK = "remark"
    """Says something, but nothing to record; may be left out beside a finding."""
    NEGATION = "negation"
    NOT_SEEN = "not_seen"
    """A negation that may also follow what it denies."""
    OR = "or"
    EXCEPT = "except"
    MAYBE_EXCEPT = "maybe_except"
    """An exception when only units follow it, else quiet."""
    SAME = "same"
    TOO = "too"
    """The same as before when it stands alone at a unit, else quiet."""
    CORRECTION = "correction"
    EVERYTHING = "everything"
    SEPARATOR = "separator"


@dataclass(frozen=True)
class Sense:
    """The meaning of a phrase: a finding, a hint, a role, or several readings to ask about.

    Exactly one of ``kind``, ``hint``, ``role`` and ``options`` is set.
    """

    kind: EntryKind | None = None
    value: Value | None = None
    hint: Hint | None = None
    role: Role | None = None
    options: tuple[str, ...] = ()
