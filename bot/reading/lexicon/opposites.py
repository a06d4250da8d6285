"""What "no" and "not" make of a finding, and which findings cannot both be true."""

from bot.reading.lexicon.sense import Hint
from scheduling.entry_facts import ENTRY_FACTS
from scheduling.entry_kinds import EntryKind

DENIED: dict[EntryKind, EntryKind] = {
    kind: facts.opposite for kind, facts in ENTRY_FACTS.items() if facts.opposite is not None
}
"""A finding and what its denial says. Kinds not named here cannot be denied in one entry."""

DENIED_HINT: dict[Hint, EntryKind | Hint] = {
    Hint.OUT: Hint.NOT_OUT,
    Hint.VIRGIN: EntryKind.QUEEN_NOT_SEEN,
    Hint.QUEEN: EntryKind.QUEEN_NOT_SEEN,
}

EXCLUDING = frozenset(
    frozenset({kind, other}) for kind, facts in ENTRY_FACTS.items() for other in facts.contradicts
)
"""Pairs that contradict each other at one unit on one day."""
