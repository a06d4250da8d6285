"""Tokens become elements: each place of the text is tried against what may stand there."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from bot.reading.result import QuestionKind
from bot.reading.scan.days_and_amounts import (
    scan_dashed_numbers,
    scan_day,
    scan_graft,
    scan_impossible_day,
    scan_quantity,
    scan_until,
)
from bot.reading.scan.elements import (
    HARD,
    SOFT,
    Break,
    BreakStrength,
    Cursor,
    Element,
    Found,
    FreeText,
    NamedUnits,
    UnclearPart,
)
from bot.reading.scan.phrases import (
    scan_combined_with,
    scan_destination,
    scan_long_phrase,
    scan_phrase,
    scan_subject,
)
from bot.reading.scan.units_and_yards import (
    scan_asking,
    scan_homophone,
    scan_letter,
    scan_part_of,
    scan_position,
    scan_units,
    scan_word_or_letter,
    scan_yard,
)

_DROPPED = frozenset({":", "-", "=", "(", ")", '"', "'", "*", "/", "@", ">"})


def _scan_note(cursor: Cursor, at: int) -> Found | None:
    """Read a free note, with the unit that may stand first in it."""
    if cursor.text_at(at) not in ("note", "notes"):
        return None
    end = _note_end(cursor, at + 1)
    if end == at + 1:
        return UnclearPart(*cursor.span(at, at + 1), QuestionKind.NOT_UNDERSTOOD), end
    about = cursor.text_at(at + 1) in ("for", "on", "about") and cursor.lettered(at + 2)
    at += about
    if (about or cursor.glued(at + 1)) and end > at + 2 and (named := scan_units(cursor, at + 1)):
        cursor.elements.append(named[0] or Break(0, 0, BreakStrength.COMMA))
        at = named[1] - 1
    start, stop = cursor.span(at, end)
    words = cursor.text[cursor.tokens[at].end : stop].strip(" :-,")
    return FreeText(start, stop, words), end


def _note_end(cursor: Cursor, at: int) -> int:
    """Find where a note ends: at a line's end, a semicolon, or a comma before a unit."""
    for i in range(at, len(cursor.tokens)):
        comma_before_unit = cursor.text_at(i) in (",", ".") and cursor.glued(i + 1)
        if cursor.text_at(i) in ("\n", ";") or comma_before_unit:
            return i
    return len(cursor.tokens)


def _scan_mark(cursor: Cursor, at: int) -> Found | None:
    """Read a comma or the end of a sentence; other marks are dropped."""
    text = cursor.text_at(at)
    after_units = bool(cursor.elements) and isinstance(cursor.elements[-1], NamedUnits)
    if text == ":" and after_units and cursor.glued(at + 1):
        return Break(*cursor.span(at, at + 1), BreakStrength.STOP), at + 1
    if text in SOFT or text in HARD:
        return Break(*cursor.span(at, at + 1), _strength(text)), at + 1
    return (None, at + 1) if text in _DROPPED else None


def _strength(mark: str) -> BreakStrength:
    if mark in HARD:
        return BreakStrength.STOP
    return BreakStrength.COMMA if mark == "," else BreakStrength.AND


_READINGS: tuple[Callable[[Cursor, int], Found | None], ...] = (
    _scan_note,
    _scan_mark,
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
    scan_word_or_letter,
    scan_part_of,
    scan_units,
    scan_letter,
    scan_position,
    scan_phrase,
)
"""Tried in this order: what is told by more words, or rarer ones, comes first."""


def scan(cursor: Cursor) -> list[Element]:
    """Give the elements of a text in its order; words that nothing knows become unclear parts."""
    return list(scan_lazily(cursor))


def scan_lazily(cursor: Cursor) -> Iterator[Element]:
    """Give the same one by one, for whoever may not need the rest of the text."""
    at = 0
    while at < len(cursor.tokens):
        before = len(cursor.elements)
        element, at = _next(cursor, at)
        if element is not None:
            cursor.elements.append(element)
        # A note adds its unit before itself.
        yield from cursor.elements[before:]


def _next(cursor: Cursor, at: int) -> Found:
    for reading in _READINGS:
        found = reading(cursor, at)
        if found is not None:
            return found
    return UnclearPart(*cursor.span(at, at + 1), QuestionKind.NOT_UNDERSTOOD), at + 1


def with_boxes(elements: Sequence[Element]) -> list[Element]:
    """Give every lone letter the box of the unit named last."""
    found: list[Element] = []
    box: int | None = None
    for element in elements:
        if isinstance(element, NamedUnits):
            element = replace(
                element,
                references=tuple(
                    replace(each, box=box) if each.box is None else each
                    for each in element.references
                ),
            )
            box = element.references[-1].box or box
        found.append(element)
    return found
