"""Which yard each clause speaks of, and which yard has a box."""

from collections.abc import Sequence
from dataclasses import replace

from bot.reading.atoms import Puzzle
from bot.reading.piece import Piece
from bot.reading.result import QuestionKind
from bot.reading.situation import Situation, YardUnits
from scheduling.places import Place

HOME = "home"
"""The yard of somebody who has none yet."""


def placed(clauses: Sequence[Piece], pieces: Sequence[Piece]) -> list[Piece]:
    """Give every clause the yard the text names for it.

    One yard named first, last or alone is the yard of the whole text. One that leads a later
    clause is the yard from there on. With several, a clause has its own or that of the clause
    before it; one before the first named yard gets a puzzle.
    """
    named = list(dict.fromkeys(piece.yard for piece in pieces if piece.yard))
    if not named:
        return list(clauses)
    if len(named) == 1 and not _leads_later(pieces):
        return [replace(clause, yard=named[0]) for clause in clauses]
    found: list[Piece] = []
    carried: str | None = pieces[0].yard if not (pieces[0].units or pieces[0].said) else None
    for clause in clauses:
        carried = clause.yard or carried
        asked = carried is None and len(named) > 1
        found.append(_asked(clause, named) if asked else replace(clause, yard=carried))
    return found


def _leads_later(pieces: Sequence[Piece]) -> bool:
    """Say whether the yard stands first in a clause that is not the first: "4b eggs, river 20a"."""
    first = next(i for i, piece in enumerate(pieces) if piece.yard)
    told_before = any(piece.units or piece.said for piece in pieces[:first])
    tells = bool(pieces[first].units or pieces[first].said)
    return told_before and tells and pieces[first].yard_leads


def _asked(clause: Piece, yards: Sequence[str]) -> Piece:
    puzzle = Puzzle(clause.start, clause.end, QuestionKind.WHICH_YARD, tuple(yards))
    return replace(clause, said=(*clause.said, puzzle))


def yard_at_hand(situation: Situation, named: str | None) -> str | None:
    """Give the yard meant when no unit tells it; None if it must be asked."""
    if named or situation.current_yard:
        return named or situation.current_yard
    if not situation.yards:
        return HOME
    return situation.yards[0].name if len(situation.yards) == 1 else None


def yards_with_box(situation: Situation, box: int, named: str | None) -> list[YardUnits]:
    """Give the yards in which a box may be meant: one, several to ask about, or none."""
    having = [yard for yard in situation.yards if any(unit.box == box for unit in yard.units)]
    if named:
        return [yard for yard in having if yard.name == named]
    current = [yard for yard in having if yard.name == situation.current_yard]
    return current or having


def stands(situation: Situation, place: Place) -> bool:
    """Say whether a unit stands there; without any yard, any unit is taken to."""
    if not situation.yards:
        return True
    return any(yard.name == place.yard and place.unit in yard.units for yard in situation.yards)
