"""A letter said alone belongs to the box named before it: "4a eggs, b none"."""

from collections.abc import Sequence
from dataclasses import replace

from bot.reading.atoms import Atom, Units
from bot.reading.picks import Pick


def boxed(atoms: Sequence[Atom]) -> list[Atom]:
    """Give every lone letter the box of the unit named last."""
    found: list[Atom] = []
    box: int | None = None
    for atom in atoms:
        if isinstance(atom, Units):
            atom = replace(atom, picks=tuple(_in_box(pick, box) for pick in atom.picks))
            box = atom.picks[-1].box or box
        found.append(atom)
    return found


def _in_box(pick: Pick, box: int | None) -> Pick:
    return replace(pick, box=box) if pick.box is None else pick
