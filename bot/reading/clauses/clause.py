"""A clause, or a part of one: units and what is said of them."""

from collections.abc import Sequence
from dataclasses import dataclass

from bot.reading.lexicon.sense import Hint, Role, Sense
from bot.reading.scan.elements import (
    Atom,
    AtYard,
    Batch,
    Break,
    Everything,
    FreeWords,
    GraftedOn,
    Much,
    Said,
    Strength,
    Till,
    Units,
    When,
    Whither,
)
from scheduling.entry_facts import ENTRY_FACTS, entry_kinds
from scheduling.entry_kinds import Scope

Named = Units | Everything
DETAILS = Much | Till | GraftedOn | Whither
"""Atoms that only complete a finding."""
YARD_KINDS = entry_kinds(lambda facts: facts.scope is Scope.YARD)


@dataclass(frozen=True)
class Piece:
    """Units and what is said of them, or only one of the two.

    ``units_first`` tells "4b eggs" from "eggs in 4b". ``leading`` is a
    day, ``yard_leads`` a yard said before all else; ``parted`` tells how strongly it stands
    apart from the piece before it.
    """

    units: tuple[Named, ...] = ()
    excluded: tuple[Units, ...] = ()
    said: tuple[Atom, ...] = ()
    units_first: bool = True
    yard: str | None = None
    when: When | None = None
    leading: bool = False
    yard_leads: bool = False
    parted: Strength = Strength.STOP
    start: int = 0
    end: int = 0

    @property
    def of_yard(self) -> bool:
        """Whether it speaks of a yard or batch rather than of units."""
        return any(
            isinstance(atom, Batch) or (isinstance(atom, Said) and atom.sense.kind in YARD_KINDS)
            for atom in self.said
        )


def has_role(atom: Atom, *roles: Role) -> bool:
    """Say whether the atom is a phrase with one of these roles."""
    return isinstance(atom, Said) and atom.sense.role in roles


def is_note(piece: Piece) -> bool:
    """Say whether the piece is a free note and nothing else."""
    return bool(piece.said) and all(isinstance(atom, FreeWords) for atom in piece.said)


def is_said(atom: Atom) -> bool:
    """Say whether the atom tells something, rather than naming a unit, a yard or a day."""
    return not isinstance(atom, Units | Everything | AtYard | When | Break) and not has_role(
        atom, Role.EXCEPT, Role.MAYBE_EXCEPT
    )


def is_small_talk(atoms: Sequence[Atom]) -> bool:
    """Say whether a text greets, thanks or remarks, and reports nothing: "thanks!", "ok"."""
    return all(isinstance(atom, Break) or has_role(atom, Role.REMARK) for atom in atoms)


def is_remark(piece: Piece) -> bool:
    """Say whether only remarks are made of the piece's units: "opened box 4"."""
    return bool(piece.said) and all(has_role(atom, Role.REMARK) for atom in piece.said)


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
