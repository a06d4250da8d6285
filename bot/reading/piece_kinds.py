"""What a piece is good for when pieces are joined."""

from bot.reading.atoms import Everything, Said
from bot.reading.lexicon.sense import Hint, Role
from bot.reading.piece import DETAILS, Piece, has_role
from scheduling.entry_kinds import EntryKind


def is_bare(piece: Piece | None) -> bool:
    """Say whether the piece only names units."""
    return piece is not None and bool(piece.units) and not piece.said


def is_detail(piece: Piece) -> bool:
    """Say whether the piece only completes a finding: a number, a day to put off to."""
    return bool(piece.said) and all(isinstance(atom, DETAILS) for atom in piece.said)


def is_all(piece: Piece) -> bool:
    """Say whether the piece names no units but "all", with something said of them."""
    everything = bool(piece.units) and all(isinstance(unit, Everything) for unit in piece.units)
    return everything and bool(piece.said) and not piece.excluded and not piece.yard


def denies_nothing(piece: Piece) -> bool:
    """Say whether the piece is a "no" or "not" with nothing after it."""
    return bool(piece.said) and all(has_role(atom, Role.NEGATION) for atom in piece.said)


_VERBS = frozenset(
    {
        EntryKind.MADE_UP,
        EntryKind.FED,
        EntryKind.TRAP_SERVICED,
        EntryKind.CELL_PLACED,
        EntryKind.VIRGIN_PLACED,
        EntryKind.BROOD_ADDED,
        EntryKind.BEES_ADDED,
        EntryKind.PUT_OFF,
        EntryKind.QUEEN_TAKEN,
        Hint.TRAP,
        Hint.CELL,
        Hint.VIRGIN,
        Hint.GIVEN,
        Hint.FOOD,
        Hint.FONDANT,
        Hint.BROOD,
        Hint.BEES,
        Hint.HONEY,
    }
)
"""Findings that numbers and days complete."""


def takes_details(piece: Piece) -> bool:
    """Say whether numbers and days can complete what the piece says."""
    said = [atom.sense for atom in piece.said if isinstance(atom, Said)]
    return bool(said) and all(sense.kind in _VERBS or sense.hint in _VERBS for sense in said)
