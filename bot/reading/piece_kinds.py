"""What a piece is good for when pieces are joined."""

from bot.reading.atoms import Everything, Said
from bot.reading.lexicon.sense import Hint, Role, Sense
from bot.reading.piece import DETAILS, Piece, has_role
from scheduling.entry_facts import ENTRY_FACTS


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


_NOUNS = frozenset(
    {
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
"""Words that numbers and days complete, as they do the findings whose facts say so."""


def takes_details(piece: Piece) -> bool:
    """Say whether numbers and days can complete what the piece says."""
    said = [atom.sense for atom in piece.said if isinstance(atom, Said)]
    return bool(said) and all(_takes_details(sense) for sense in said)


def _takes_details(sense: Sense) -> bool:
    if sense.kind is not None:
        return ENTRY_FACTS[sense.kind].takes_details
    return sense.hint in _NOUNS
