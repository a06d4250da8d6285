"""Pieces joined across commas: "4a, 4b and 4c eggs", "fed 2a, 2b", "4b eggs, saw her"."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from bot.reading.clauses.clause import (
    DETAILS,
    Piece,
    denies_nothing,
    has_role,
    is_all,
    is_bare,
    is_detail,
    is_note,
    is_remark,
    takes_details,
)
from bot.reading.lexicon.sense import Role
from bot.reading.result import QuestionKind
from bot.reading.scan.elements import Atom, Break, Puzzle, Said, Strength


def joined(pieces: Sequence[Piece]) -> list[Piece]:
    """Give clauses: every piece has units and something said, or speaks of a yard or a day."""
    joiner = _Joiner()
    rest = [piece for piece in pieces if piece.units or piece.said or piece.excluded]
    for at, piece in enumerate(rest):
        joiner.take(piece, rest[at + 1] if at + 1 < len(rest) else None)
    joiner.finish()
    return joiner.clauses


def _merge(first: Piece, second: Piece) -> Piece:
    whens = [piece.when for piece in (first, second) if piece.when]
    both_dated = len(whens) > 1 and whens[0].spoken != whens[1].spoken
    clash = (Puzzle(first.start, second.end, QuestionKind.WHICH_DATE),) if both_dated else ()
    return replace(
        first,
        units=(*first.units, *second.units),
        excluded=(*first.excluded, *second.excluded),
        said=(*first.said, *_parted(first, second), *second.said, *clash),
        yard=second.yard or first.yard,
        when=whens[0] if whens else None,
        leading=first.leading,
        yard_leads=first.yard_leads or (second.yard_leads and not first.said),
        start=min(first.start, second.start),
        end=max(first.end, second.end),
    )


def _parted(first: Piece, second: Piece) -> tuple[Atom, ...]:
    """Keep a negation in one piece from reaching into the next."""
    if not first.said or not second.said:
        return ()
    return (Break(first.end, second.start, second.parted),)


def _merged(pieces: Iterable[Piece]) -> Piece:
    first, *rest = pieces
    for piece in rest:
        first = _merge(first, piece)
    return first


class _Joiner:
    """Clauses so far, units that wait for what is said, and words that wait for units."""

    def __init__(self) -> None:
        self.clauses: list[Piece] = []
        self.waiting: list[Piece] = []
        self.words: list[Piece] = []

    def take(self, piece: Piece, following: Piece | None) -> None:
        piece = self._in_its_place(piece)
        if piece.of_yard:
            self.clauses.append(piece)
        elif is_note(piece) and not piece.units:
            self._take_note(piece)
        elif piece.excluded and not piece.units and self._last() is not None and not piece.said:
            self._replace_last(piece)
        elif piece.units and piece.said:
            self._take_full(piece)
        elif piece.units:
            self._take_units(piece)
        else:
            self._take_words(piece, following)

    def _in_its_place(self, piece: Piece) -> Piece:
        """Read "all" after units as those units, and a detail after units with its verb."""
        if is_all(piece) and (self.waiting or self._last() is not None):
            if self.waiting or self._only_remarked():
                return replace(piece, units=())
            puzzle = Puzzle(piece.start, piece.end, QuestionKind.NO_UNIT)
            return replace(piece, units=(), said=(puzzle,)) if not piece.yard else piece
        if not piece.units and not self.waiting and not self.clauses and denies_nothing(piece):
            puzzle = Puzzle(piece.start, piece.end, QuestionKind.NOT_UNDERSTOOD)
            return replace(piece, said=(puzzle,))
        return piece

    def _only_remarked(self) -> bool:
        """Say whether the last units were only "checked": what follows is said of them."""
        last = self._last()
        said = last.said if last else ()
        return bool(said) and all(has_role(atom, Role.REMARK) for atom in said)

    def finish(self) -> None:
        if self.words:
            self.clauses.append(_merged([*self.words, *self.waiting]))
            return
        self._settle_backward()

    def _last(self) -> Piece | None:
        last = self.clauses[-1] if self.clauses else None
        return None if last is None or last.of_yard or not last.units else last

    def _replace_last(self, piece: Piece) -> None:
        self.clauses[-1] = _merge(self.clauses[-1], piece)

    def _take_note(self, piece: Piece) -> None:
        self._settle_backward()
        told = [clause for clause in self.clauses if not clause.of_yard]
        if len(told) == 1 and self._last() is not None and piece.parted is not Strength.STOP:
            self._replace_last(piece)
        elif told:
            puzzle = Puzzle(piece.start, piece.end, QuestionKind.NO_UNIT)
            self.clauses.append(replace(piece, said=(puzzle,)))
        else:
            self.clauses.append(piece)

    def _take_full(self, piece: Piece) -> None:
        if self.words:
            lead = self.words
            self.words = []
            if self.waiting or (not piece.units_first and len(lead) > 1):
                self.clauses.append(self._unclear([*lead, *self.waiting, piece]))
                self.waiting = []
                return
            piece = replace(_merged([*lead, piece]), units_first=piece.units_first)
        if self._join_verb(piece):
            return
        if self.waiting and piece.units_first:
            self._join_forward(piece)
        else:
            self._settle_backward()
            self.clauses.append(piece)

    def _join_forward(self, piece: Piece) -> None:
        last = self._last()
        if last is None or last.units_first or is_remark(last):
            self._merge_waiting(piece)
        elif self.waiting[-1].parted < piece.parted:
            self._settle_backward()
            self.clauses.append(piece)
        elif self.waiting[0].parted is Strength.STOP:
            self._merge_waiting(piece)
        else:
            whole = [*self.waiting, piece]
            self.waiting = []
            self.clauses.append(self._unclear(whole))

    def _merge_waiting(self, piece: Piece) -> None:
        whole = [*self.waiting, piece]
        self.waiting = []
        self.clauses.append(_merged(whole))

    def _join_verb(self, piece: Piece) -> bool:
        """Give "8b 2 shakes" the verb of "made up 8a": both units if it had no number yet."""
        last = self._last()
        if last is None or not is_detail(piece) or not takes_details(last):
            return False
        if not any(isinstance(atom, DETAILS) for atom in last.said) and not last.units_first:
            self._settle_backward()
            self._replace_last(piece)
            return True
        verb = tuple(atom for atom in last.said if isinstance(atom, Said))
        piece = replace(piece, said=(*verb, *piece.said))
        if self.waiting:
            self._join_forward(piece)
        else:
            self.clauses.append(replace(piece, units_first=last.units_first))
        return True

    def _unclear(self, pieces: list[Piece]) -> Piece:
        whole = _merged(pieces)
        puzzle = Puzzle(whole.start, whole.end, QuestionKind.WHICH_MEANING)
        return replace(whole, said=(puzzle,))

    def _take_units(self, piece: Piece) -> None:
        if self.words:
            self.clauses.append(replace(_merged([*self.words, piece]), units_first=False))
            self.words = []
        else:
            self.waiting.append(piece)

    def _take_words(self, piece: Piece, following: Piece | None) -> None:
        last = self._last()
        if self.waiting:
            self._words_after_units(piece, last)
        elif last is None or (not last.units_first and is_bare(following) and not is_detail(piece)):
            self.words.append(piece)
        else:
            self._replace_last(piece)

    def _words_after_units(self, piece: Piece, last: Piece | None) -> None:
        stop = self.waiting[0].parted is Strength.STOP
        back = last is not None and not last.units_first and not is_remark(last) and not stop
        if back and is_detail(piece):
            self._settle_backward()
            self._replace_last(piece)
            return
        whole = [*self.waiting, piece]
        self.waiting = []
        self.clauses.append(self._unclear(whole) if back else _merged(whole))

    def _settle_backward(self) -> None:
        """Give waiting units to the verb before them, or leave them without a finding."""
        last = self._last()
        for piece in self.waiting:
            if last is not None and not last.units_first:
                self._replace_last(piece)
            else:
                self.clauses.append(piece)
        self.waiting = []
