"""Subjects that another word of the sentence speaks of: "the queen in 2b is dead"."""

from bot.reading.lexicon.sense import Hint, Sense
from bot.reading.told import Words
from scheduling.entry_facts import ENTRY_FACTS
from scheduling.entry_kinds import EntryKind, Noun

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

_NOUNS = {Hint.CELL: Noun.CELL, Hint.QUEEN: Noun.QUEEN, Hint.BEES: Noun.BEES}


def with_subjects(words: Words) -> None:
    """Join subjects with what is said of them, in place."""
    for (subject, said), kind in _TOGETHER.items():
        pair = [Sense(hint=subject), Sense(hint=said)]
        if all(sense in words.senses for sense in pair):
            words.senses = [sense for sense in words.senses if sense not in pair]
            words.senses.append(Sense(kind=kind))


def without_said_subjects(words: Words) -> None:
    """Drop subjects that a finding already names, in place."""
    said = Noun.NONE
    for sense in words.senses:
        if sense.kind is not None:
            said |= ENTRY_FACTS[sense.kind].nouns
    words.senses = [sense for sense in words.senses if not _is_said(sense, said)]


def _is_said(sense: Sense, said: Noun) -> bool:
    return sense.hint in _NOUNS and _NOUNS[sense.hint] in said
