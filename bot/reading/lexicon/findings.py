"""Phrases that mean one finding, whatever the unit."""

from bot.reading.lexicon.cells_and_queens import OF_QUEENS
from bot.reading.lexicon.colonies import OF_COLONIES
from bot.reading.lexicon.starts import OF_STARTS
from scheduling.entries import EntryKind

FINDINGS: dict[EntryKind, tuple[str, ...]] = {**OF_QUEENS, **OF_STARTS, **OF_COLONIES}
"""Kind of finding -> the phrases that mean it. Shorter phrases yield to longer ones."""
