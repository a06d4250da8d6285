"""Phrases that mean one finding, whatever the unit."""

from bot.reading.lexicon.cells_and_queens import OF_QUEENS
from bot.reading.lexicon.colonies import OF_COLONIES
from bot.reading.lexicon.starts import OF_STARTS
from scheduling.entry_kinds import EntryKind

_ONE = {**OF_QUEENS, **OF_STARTS, **OF_COLONIES}


def _with_plurals(phrases: tuple[str, ...]) -> tuple[str, ...]:
    """Add "queens dead" and "queens are dead" to "queen dead" and "queen is dead"."""
    many = (
        phrase.replace("queen ", "queens ", 1).replace(" is ", " are ").replace(" has ", " have ")
        for phrase in phrases
        if phrase.startswith("queen ") and not phrase.startswith("queen cell")
    )
    return tuple(dict.fromkeys((*phrases, *many)))


FINDINGS: dict[EntryKind, tuple[str, ...]] = {
    kind: _with_plurals(phrases) for kind, phrases in _ONE.items()
}
"""Kind of finding -> the phrases that mean it. Shorter phrases yield to longer ones."""
