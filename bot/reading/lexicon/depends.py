"""Words that need their unit or their neighbours, and words with two meanings."""

from bot.reading.lexicon.sense import Hint

HINTS: dict[Hint, tuple[str, ...]] = {
    Hint.OUT: ("out", "is out", "she is out", "queen out", "are out", "queen is out", "came out"),
    Hint.DEAD: ("dead", "died"),
    Hint.SEALED: ("sealed", "capped"),
    Hint.NONE: ("none", "nothing", "nope", "nada", "neither", "nil"),
    Hint.NOT_YET: ("not yet", "still not", "no not yet"),
    Hint.QUEEN: ("queen",),
    Hint.VIRGIN: ("virgin", "virgins", "virgin queen"),
    Hint.CELL: ("cell", "cells", "queen cell placed"),
    Hint.TRAP: ("trap", "traps", "beetle trap", "beetle traps"),
    Hint.FOOD: ("food", "stores"),
    Hint.HONEY: ("honey",),
    Hint.BROOD: ("brood",),
    Hint.BEES: ("bees", "nurse bees"),
    Hint.GIVEN: (
        "gave", "given", "give", "added", "add", "put", "put in", "placed", "introduced",
        "gave them", "dropped in", "installed",
    ),
    Hint.TAKE: ("took", "caught", "pulled", "removed", "taken"),
    Hint.FONDANT: ("fondant", "candy", "candy board"),
}  # fmt: skip
"""Hint -> the words that give it."""

TWO_MEANINGS: dict[tuple[str, ...], tuple[str, ...]] = {
    ("laying workers", "eggs"): (
        "multiple eggs", "multiple eggs in cells", "multiple eggs per cell", "many eggs per cell",
        "several eggs per cell", "two eggs per cell", "more than one egg per cell",
        "double eggs", "multiple eggs in a cell", "lots of eggs per cell",
    ),
    ("drone layer", "good brood"): ("drone brood", "drones", "drone cells", "drone eggs"),
    ("own cells", "new cell"): ("queen cells", "queen cell", "qcs", "qc"),
    ("no queen", "queen dead"): (
        "queenless", "queen gone", "gone queenless", "queen lost", "lost queen", "lost the queen",
        "lost her", "she is gone", "q minus",
    ),
    ("queen seen", "eggs"): ("queenright", "queen right", "queen ok", "queen good", "queen fine"),
    ("dead out", "absconded"): ("empty", "no bees", "nobody home", "crashed", "is empty"),
    ("no eggs", "no queen"): ("no brood", "broodless", "without brood"),
    ("no food", "1/4 frame food"): ("starving", "hungry", "light", "needs feed", "low on food"),
    ("fed 1 quart", "1/4 frame food"): ("feed",),
    ("trap no beetles", "trap emptied"): ("trap empty", "traps empty", "empty trap"),
    ("queen dead", "absconded"): ("balled", "balling", "left"),
}  # fmt: skip
"""Readings to ask about -> the words that could mean either."""
