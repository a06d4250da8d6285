"""Tokens become elements: each place of the text is tried against what may stand there."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from bot.reading.result import QuestionKind
from bot.reading.scan.elements import (
    HARD,
    SOFT,
    Atom,
    Break,
    Cursor,
    Found,
    FreeWords,
    Puzzle,
    Strength,
    Units,
)
from bot.reading.scan.grafts import scan_graft
from bot.reading.scan.phrases import (
    scan_combined_with,
    scan_destination,
    scan_long_phrase,
    scan_phrase,
    scan_subject,
)
from bot.reading.scan.quantities import (
    scan_dashed_numbers,
    scan_day,
    scan_impossible_day,
    scan_quantity,
    scan_until,
)
from bot.reading.scan.unit_references import UnitReference
from bot.reading.scan.units_and_yards import (
    scan_article_or_letter,
    scan_asking,
    scan_homophone,
    scan_letter,
    scan_part_of,
    scan_position,
    scan_see_or_letter,
    scan_units,
    scan_yard,
)

_DROPPED = frozenset({":", "-", "=", "(", ")", '"', "'", "*", "/", "@", ">"})


def scan_note(cursor: Cursor, at: int) -> Found | None:
    """Read a free note, with the unit that may stand first in it."""
    if cursor.text_at(at) not in ("note", "notes"):
        return None
    end = _note_end(cursor, at + 1)
    if end == at + 1:
        return Puzzle(*cursor.span(at, at + 1), QuestionKind.NOT_UNDERSTOOD), end
    about = cursor.text_at(at + 1) in ("for", "on", "about") and cursor.lettered(at + 2)
    at += about
    if (about or cursor.glued(at + 1)) and end > at + 2 and (named := scan_units(cursor, at + 1)):
        cursor.atoms.append(named[0] or Break(0, 0, Strength.COMMA))
        at = named[1] - 1
    start, stop = cursor.span(at, end)
    words = cursor.text[cursor.words[at].end : stop].strip(" :-,")
    return FreeWords(start, stop, words), end


def _note_end(cursor: Cursor, at: int) -> int:
    """Find where a note ends: at a line's end, a semicolon, or a comma before a unit."""
    for i in range(at, len(cursor.words)):
        comma_before_unit = cursor.text_at(i) in (",", ".") and cursor.glued(i + 1)
        if cursor.text_at(i) in ("\n", ";") or comma_before_unit:
            return i
    return len(cursor.words)


def scan_mark(cursor: Cursor, at: int) -> Found | None:
    """Read a comma or the end of a sentence; other marks are dropped."""
    text = cursor.text_at(at)
    if (
        text == ":"
        and cursor.glued(at + 1)
        and cursor.atoms
        and isinstance(cursor.atoms[-1], Units)
    ):
        return Break(*cursor.span(at, at + 1), Strength.STOP), at + 1
    if text in SOFT or text in HARD:
        return Break(*cursor.span(at, at + 1), _strength(text)), at + 1
    return (None, at + 1) if text in _DROPPED else None


def _strength(mark: str) -> Strength:
    if mark in HARD:
        return Strength.STOP
    return Strength.COMMA if mark == "," else Strength.AND


_READINGS: tuple[Callable[[Cursor, int], Found | None], ...] = (
    scan_note,
    scan_mark,
    scan_graft,
    scan_yard,
    scan_until,
    scan_destination,
    scan_combined_with,
    scan_asking,
    scan_subject,
    scan_long_phrase,
    scan_dashed_numbers,
    scan_impossible_day,
    scan_day,
    scan_quantity,
    scan_homophone,
    scan_article_or_letter,
    scan_see_or_letter,
    scan_part_of,
    scan_units,
    scan_letter,
    scan_position,
    scan_phrase,
)
"""Tried in this order: what is told by more words, or rarer ones, comes first."""


def scan(cursor: Cursor) -> list[Atom]:
    """Give the atoms of a text in its order; words that nothing knows become puzzles."""
    return list(scan_lazily(cursor))


def scan_lazily(cursor: Cursor) -> Iterator[Atom]:
    """Give the same one by one, for whoever may not need the rest of the text."""
    at = 0
    while at < len(cursor.words):
        before = len(cursor.atoms)
        atom, at = _next(cursor, at)
        if atom is not None:
            cursor.atoms.append(atom)
        # A note adds its unit before itself.
        yield from cursor.atoms[before:]


def _next(cursor: Cursor, at: int) -> Found:
    for reading in _READINGS:
        found = reading(cursor, at)
        if found is not None:
            return found
    return Puzzle(*cursor.span(at, at + 1), QuestionKind.NOT_UNDERSTOOD), at + 1


def with_boxes(atoms: Sequence[Atom]) -> list[Atom]:
    """Give every lone letter the box of the unit named last."""
    found: list[Atom] = []
    box: int | None = None
    for atom in atoms:
        if isinstance(atom, Units):
            atom = replace(
                atom, references=tuple(_in_box(reference, box) for reference in atom.references)
            )
            box = atom.references[-1].box or box
        found.append(atom)
    return found


def _in_box(reference: UnitReference, box: int | None) -> UnitReference:
    return replace(reference, box=box) if reference.box is None else reference
