"""Which day and which yard each clause speaks of."""

from collections.abc import Sequence
from dataclasses import replace

from bot.reading.clauses.clause import Piece
from bot.reading.result import QuestionKind
from bot.reading.scan.elements import Puzzle, When
from bot.reading.tokens.spoken_day import SpokenDay

_TODAY = SpokenDay(ago=0)


def dated(clauses: Sequence[Piece], pieces: Sequence[Piece]) -> list[Piece]:
    """Give every clause its day; one whose day is not clear gets a puzzle.

    A single day said first, last or alone is the day of the whole text.
    """
    said = [piece for piece in pieces if piece.when is not None]
    if not said or len(clauses) <= 1:
        return [_with(clause, said[0].when if said else None) for clause in clauses]
    whole = _day_of_all(said, pieces)
    if whole is not None:
        return [_with(clause, whole) for clause in clauses]
    return _each(clauses)


def _day_of_all(said: Sequence[Piece], pieces: Sequence[Piece]) -> When | None:
    days = {piece.when.spoken for piece in said if piece.when}
    if len(days) > 1:
        return None
    alone = any(not piece.units and not piece.said for piece in said)
    first = pieces[0].when is not None and pieces[0].leading
    last = pieces[-1].when is not None
    today = days == {_TODAY}
    return said[0].when if alone or first or last or today else None


def _each(clauses: Sequence[Piece]) -> list[Piece]:
    """Carry a day said before its clause forward; ask where no day was said."""
    found: list[Piece] = []
    carried: When | None = None
    for clause in clauses:
        carried = (
            clause.when if clause.when and clause.leading else (None if clause.when else carried)
        )
        when = clause.when or carried
        found.append(_with(clause, when) if when else _asked_day(clause))
    return found


def _with(clause: Piece, when: When | None) -> Piece:
    return clause if clause.when else replace(clause, when=when)


def _asked_day(clause: Piece) -> Piece:
    puzzle = Puzzle(clause.start, clause.end, QuestionKind.WHICH_DATE)
    return replace(clause, said=(*clause.said, puzzle))


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
        found.append(_asked_yard(clause, named) if asked else replace(clause, yard=carried))
    return found


def _leads_later(pieces: Sequence[Piece]) -> bool:
    """Say whether the yard stands first in a clause that is not the first: "4b eggs, river 20a"."""
    first = next(i for i, piece in enumerate(pieces) if piece.yard)
    told_before = any(piece.units or piece.said for piece in pieces[:first])
    tells = bool(pieces[first].units or pieces[first].said)
    return told_before and tells and pieces[first].yard_leads


def _asked_yard(clause: Piece, yards: Sequence[str]) -> Piece:
    puzzle = Puzzle(clause.start, clause.end, QuestionKind.WHICH_YARD, tuple(yards))
    return replace(clause, said=(*clause.said, puzzle))
