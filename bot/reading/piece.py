"""A piece of a text: units and what is said of them."""

from collections.abc import Sequence
from dataclasses import dataclass

from bot.reading.atoms import (
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
from bot.reading.lexicon.sense import Role
from scheduling.entry_facts import entry_kinds
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
