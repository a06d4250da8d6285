"""What a phrase of the lexicon stands for, and the ambiguous words: what each could mean."""

from dataclasses import dataclass
from enum import StrEnum

from scheduling.entry_kinds import EntryKind
from scheduling.values import Value


class AmbiguousWord(StrEnum):
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


class PhraseRole(StrEnum):
    """What a phrase does in a sentence when it is not itself a finding."""

    NOISE = "noise"
    """May be left out without loss."""
    REMARK = "remark"
    """Says something, but nothing to record; may be left out beside a finding."""
    NEGATION = "negation"
    NOT_SEEN = "not_seen"
    """A negation that may also follow what it denies."""
    OR = "or"
    EXCEPT = "except"
    MAYBE_EXCEPT = "maybe_except"
    """An exception when only units follow it, else noise."""
    SAME = "same"
    TOO = "too"
    """The same as before when it stands alone at a unit, else noise."""
    CORRECTION = "correction"
    EVERYTHING = "everything"
    SEPARATOR = "separator"


@dataclass(frozen=True)
class Sense:
    """The meaning of a phrase: a finding, an ambiguous word, a role, or readings to ask about.

    Exactly one of ``kind``, ``ambiguous``, ``role`` and ``options`` is set.
    """

    kind: EntryKind | None = None
    value: Value | None = None
    ambiguous: AmbiguousWord | None = None
    role: PhraseRole | None = None
    options: tuple[str, ...] = ()


AMBIGUOUS_WORDS: dict[AmbiguousWord, tuple[str, ...]] = {
    AmbiguousWord.OUT: (
        "out", "queens out", "both queens out", "queens are out", "both out", "is out",
        "she is out", "queen out", "are out", "queen is out", "came out",
    ),
    AmbiguousWord.DEAD: ("dead", "died", "all dead", "perished"),
    AmbiguousWord.SEALED: ("sealed", "capped"),
    AmbiguousWord.NONE: (
        "none", "nothing", "nope", "nada", "neither", "nil", "nothin", "nuthin", "nout", "zilch",
        "nothing yet", "none yet", "nothing there", "nothing doing", "nothing at all",
        "none at all",
    ),
    AmbiguousWord.NOT_YET: ("not yet", "still not", "no not yet"),
    AmbiguousWord.QUEEN: ("queen",),
    AmbiguousWord.VIRGIN: ("virgin", "virgins", "virgin queen"),
    AmbiguousWord.CELL: ("cell", "cells", "queen cell placed"),
    AmbiguousWord.TRAP: ("trap", "traps", "beetle trap", "beetle traps"),
    AmbiguousWord.FOOD: ("food", "stores"),
    AmbiguousWord.HONEY: ("honey",),
    AmbiguousWord.BROOD: ("brood",),
    AmbiguousWord.BEES: ("bees", "nurse bees"),
    AmbiguousWord.GIVEN: (
        "gave", "given", "give", "added", "add", "put", "put in", "placed", "introduced",
        "gave them", "dropped in", "installed", "popped in", "stuck in", "slipped in", "gave it",
        "gave her", "give her", "give them", "give it", "put into", "placed in", "added in",
        "chucked", "chucked in", "bunged", "bunged in", "stuck", "slipped", "dropped", "plonked",
        "popped a",
    ),
    AmbiguousWord.TAKE: ("took", "caught", "pulled", "removed", "taken", "went"),
    AmbiguousWord.FONDANT: ("fondant", "candy", "candy board"),
}  # fmt: skip
"""Ambiguous word -> the phrases that say it."""

TWO_MEANINGS: dict[tuple[str, ...], tuple[str, ...]] = {
    ("laying workers", "eggs"): (
        "multiple eggs", "multiple eggs in cells", "multiple eggs per cell", "many eggs per cell",
        "several eggs per cell", "two eggs per cell", "more than one egg per cell",
        "eggs in each cell", "eggs in every cell", "two eggs in a cell", "multiple eggs per cells",
        "multi eggs per cell", "eggs per cell", "several eggs in each cell",
        "multiple eggs in each cell", "double eggs in cells", "double eggs",
        "multiple eggs in a cell", "lots of eggs per cell",
    ),
    ("eggs", "no eggs"): ("one has", "one is", "one had", "one of them", "only one", "one of these",
        "some have", "some are", "some of them", "half of them", "most have", "most are", "most"),
    ("still caged", "caged queen placed"): ("caged", "is caged"),
    ("emerged", "dud cell"): (
        "cell empty", "empty cell", "cell is empty", "cell was empty", "queen cell empty",
        "empty queen cell", "cell open", "cell opened", "open cell", "cell is open", "qc open",
        "qc empty", "empty qc", "queen cell open", "qc opened",
    ),
    ("drone layer", "good brood"): ("drone brood", "drones", "drone cells", "drone eggs"),
    ("own cells", "new cell"): ("queen cells", "queen cell", "qcs", "qc"),
    ("no queen", "queen dead"): (
        "queenless", "queen gone", "gone queenless", "queen lost", "lost queen", "lost the queen",
        "lost her", "she is gone", "q minus", "hopelessly queenless", "no longer has a queen",
        "queen less", "queen has gone", "queen is gone", "is queenless",
    ),
    ("queen seen", "eggs"): (
        "queenright", "queen right", "queen ok", "queen good", "queen fine", "qr",
        "is queenright", "is queen right", "queen doing well",
    ),
    ("dead out", "absconded"): ("empty", "no bees", "nobody home", "crashed", "is empty"),
    ("no eggs", "no queen"): ("no brood", "broodless", "without brood"),
    ("no food", "1/4 frame food"): ("starving", "hungry", "light", "needs feed", "low on food",
        "stores low", "light on stores", "low stores", "low on stores", "look hungry",
        "hungry bees", "stores are low", "hardly any stores", "hardly any food", "food low",
        "a bit light", "feels light", "quite light", "very light", "looks light", "little food",
        "few stores", "short of food", "short of stores", "needs feeding", "need feeding",
        "running low",
        "looking hungry", "short on food", "low food", "almost no food", "needs food"),
    ("fed 1 quart", "1/4 frame food"): ("feed",),
    ("1 frame food", "fed 1 quart"): ("full of honey", "full of food", "plenty of food",
        "plenty of stores", "heavy", "good stores", "food good", "stores good", "food ok",
        "lots of food", "lots of stores", "stores ok", "plenty stores", "well fed", "honey bound",
        "honeybound", "food fine", "stores fine", "enough food", "good for food", "plenty of honey",
    ),
    ("queen not seen", "own cells"): ("superseded", "has been superseded", "was superseded",
        "got superseded"),
    ("combined 4b into 4c", "dead out"): ("shook out", "shaken out", "shook them out",
        "shook it out"),
    ("trap no beetles", "trap emptied"): ("trap empty", "traps empty", "empty trap"),
    ("queen dead", "absconded"): ("balled", "balling", "left"),
}  # fmt: skip
"""Readings to ask about -> the words that could mean either."""
