"""Subjects that another word of the sentence speaks of: "the queen in 2b is dead"."""

from bot.reading.lexicon.sense import Hint, Sense
from bot.reading.told import Words
from scheduling.entry_kinds import EntryKind

_TOGETHER: dict[tuple[Hint, Hint], EntryKind] = {
    (Hint.QUEEN, Hint.DEAD): EntryKind.QUEEN_DEAD,
    (Hint.VIRGIN, Hint.DEAD): EntryKind.QUEEN_DEAD,
    (Hint.CELL, Hint.DEAD): EntryKind.CELL_FAILED,
    (Hint.BEES, Hint.DEAD): EntryKind.DEAD,
    (Hint.CELL, Hint.OUT): EntryKind.EMERGED,
    (Hint.CELL, Hint.NOT_OUT): EntryKind.NOT_EMERGED,
    (Hint.CELL, Hint.SEALED): EntryKind.NOT_EMERGED,
    (Hint.QUEEN, Hint.TAKE): EntryKind.QUEEN_TAKEN,
    (Hint.BROOD, Hint.SEALED): EntryKind.SEALED_BROOD,
}
"""A subject and what is said of it, and the finding that the two make."""

_OF_CELL = {
    EntryKind.EMERGED,
    EntryKind.NOT_EMERGED,
    EntryKind.CELL_FAILED,
    EntryKind.CELL_PLACED,
    EntryKind.OWN_CELLS,
}
_OF_QUEEN = {
    EntryKind.EMERGED,
    EntryKind.RELEASED,
    EntryKind.STILL_CAGED,
    EntryKind.QUEEN_DEAD,
    EntryKind.QUEEN_TAKEN,
    EntryKind.DRONE_LAYER,
    EntryKind.CAGED_QUEEN_PLACED,
}
_OF_BEES = {EntryKind.ABSCONDED, EntryKind.DEAD, EntryKind.ROBBED, EntryKind.MADE_UP}
_SPEAKS_OF: dict[Hint, set[EntryKind]] = {
    Hint.CELL: _OF_CELL,
    Hint.QUEEN: _OF_QUEEN,
    Hint.BEES: _OF_BEES,
}
"""A subject and the findings that already say it."""


def with_subjects(words: Words) -> None:
    """Join subjects with what is said of them, in place."""
    for (subject, said), kind in _TOGETHER.items():
        pair = [Sense(hint=subject), Sense(hint=said)]
        if all(sense in words.senses for sense in pair):
            words.senses = [sense for sense in words.senses if sense not in pair]
            words.senses.append(Sense(kind=kind))


def without_said_subjects(words: Words) -> None:
    """Drop subjects that a finding already names, in place."""
    kinds = {sense.kind for sense in words.senses}
    words.senses = [
        sense
        for sense in words.senses
        if sense.hint not in _SPEAKS_OF or not _SPEAKS_OF[sense.hint] & kinds
    ]
