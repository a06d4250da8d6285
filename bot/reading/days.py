"""Which day each clause speaks of."""

from collections.abc import Sequence
from dataclasses import replace

from bot.reading.atoms import Puzzle, When
from bot.reading.piece import Piece
from bot.reading.result import QuestionKind
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
        found.append(_with(clause, when) if when else _asked(clause))
    return found


def _with(clause: Piece, when: When | None) -> Piece:
    return clause if clause.when else replace(clause, when=when)


def _asked(clause: Piece) -> Piece:
    puzzle = Puzzle(clause.start, clause.end, QuestionKind.WHICH_DATE)
    return replace(clause, said=(*clause.said, puzzle))
