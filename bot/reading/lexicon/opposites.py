"""What "no" and "not" make of a finding, and which findings cannot both be true."""

from bot.reading.lexicon.sense import Hint
from scheduling.entry_kinds import EntryKind

DENIED: dict[EntryKind, EntryKind] = {
    EntryKind.EGGS: EntryKind.NO_EGGS,
    EntryKind.EMERGED: EntryKind.NOT_EMERGED,
    EntryKind.RELEASED: EntryKind.STILL_CAGED,
    EntryKind.QUEEN_SEEN: EntryKind.QUEEN_NOT_SEEN,
    EntryKind.VIRGIN_SEEN: EntryKind.QUEEN_NOT_SEEN,
}
"""A finding and what its denial says. Kinds not named here cannot be denied in one entry."""

DENIED_HINT: dict[Hint, EntryKind | Hint] = {
    Hint.OUT: Hint.NOT_OUT,
    Hint.VIRGIN: EntryKind.QUEEN_NOT_SEEN,
    Hint.QUEEN: EntryKind.QUEEN_NOT_SEEN,
}

EXCLUDING: tuple[frozenset[EntryKind], ...] = (
    frozenset({EntryKind.EGGS, EntryKind.NO_EGGS}),
    frozenset({EntryKind.EMERGED, EntryKind.NOT_EMERGED}),
    frozenset({EntryKind.EMERGED, EntryKind.CELL_FAILED}),
    frozenset({EntryKind.NOT_EMERGED, EntryKind.CELL_FAILED}),
    frozenset({EntryKind.RELEASED, EntryKind.STILL_CAGED}),
    frozenset({EntryKind.QUEEN_SEEN, EntryKind.QUEEN_NOT_SEEN}),
    frozenset({EntryKind.VIRGIN_SEEN, EntryKind.QUEEN_NOT_SEEN}),
    frozenset({EntryKind.VIRGIN_SEEN, EntryKind.EGGS}),
    frozenset({EntryKind.VIRGIN_SEEN, EntryKind.NOT_EMERGED}),
    frozenset({EntryKind.NOT_EMERGED, EntryKind.EGGS}),
    frozenset({EntryKind.STILL_CAGED, EntryKind.EGGS}),
    frozenset({EntryKind.QUEEN_DEAD, EntryKind.QUEEN_SEEN}),
    frozenset({EntryKind.QUEEN_DEAD, EntryKind.VIRGIN_SEEN}),
    frozenset({EntryKind.NO_EGGS, EntryKind.DRONE_LAYER}),
    frozenset({EntryKind.NO_EGGS, EntryKind.LAYING_WORKERS}),
    *(
        frozenset({ended, alive})
        for ended in (EntryKind.DEAD, EntryKind.ABSCONDED)
        for alive in (
            EntryKind.EGGS,
            EntryKind.QUEEN_SEEN,
            EntryKind.VIRGIN_SEEN,
            EntryKind.RELEASED,
            EntryKind.NOT_EMERGED,
            EntryKind.FED,
            EntryKind.SEALED_BROOD,
        )
    ),
    frozenset({EntryKind.DEAD, EntryKind.ABSCONDED}),
)
"""Pairs that contradict each other at one unit on one day."""
