"""Phrases of the lexicon, and where a queen or a unit went."""

from bot.reading.lexicon.measures import NUMBERS
from bot.reading.lexicon.phrase_table import phrase_at
from bot.reading.lexicon.sense import AmbiguousWord, PhraseRole, Sense
from bot.reading.result import QuestionKind
from bot.reading.scan.elements import (
    HARD,
    SOFT,
    AllUnits,
    Break,
    BreakStrength,
    Cursor,
    Destination,
    Element,
    Found,
    NamedUnits,
    Phrase,
    UnclearPart,
)
from bot.reading.scan.unit_references import unit_references_at
from bot.reading.tokens.dates import spoken_day_at
from scheduling.entry_kinds import EntryKind

_SUBJECTS = frozenset({"cell", "cells", "queen", "queens", "virgin", "virgins"})
_STATES = frozenset(
    ["hatched", "emerged", "released", "out", "duds", "dud", "laying", "sealed", "capped", "torn"]
)
"""What cells and queens can be that needs no other word."""


def scan_long_phrase(cursor: Cursor, at: int) -> Found | None:
    """Read a phrase of several words."""
    found = phrase_at([word.text for word in cursor.tokens[at : at + 10]])
    if found is None or found[1] == 1:
        return None
    if cursor.text_at(at + found[1] - 1) == "in" and cursor.units_at(at + found[1]):
        shorter = phrase_at([word.text for word in cursor.tokens[at : at + found[1] - 1]])
        if shorter and shorter[1] == found[1] - 1:
            return _said(cursor, at, *shorter)
    return _said(cursor, at, *found)


def scan_phrase(cursor: Cursor, at: int) -> Found | None:
    """Read a word of the lexicon; "in" at an end is a verb of giving."""
    if cursor.text_at(at) == "in" and cursor.text_at(at + 1) in {"", *SOFT, *HARD, "and", "today"}:
        return Phrase(*cursor.span(at, at + 1), Sense(ambiguous=AmbiguousWord.GIVEN)), at + 1
    if _left_to_raise(cursor, at):
        return None, at + 1
    if cursor.text_at(at) == "put" and _put_off(cursor, at):
        return Phrase(*cursor.span(at, at + 1), Sense(kind=EntryKind.PUT_OFF)), at + 1
    found = phrase_at([cursor.text_at(at)])
    return _said(cursor, at, *found) if found else None


def _put_off(cursor: Cursor, at: int) -> bool:
    """Say whether "put" has its "off" behind the units: "put 4b off until saturday"."""
    end = cursor.sentence_end(at)
    return cursor.units_at(at + 1) and "off" in {cursor.text_at(i) for i in range(at, end)}


def scan_subject(cursor: Cursor, at: int) -> Found | None:
    """Drop the noun of "the cells in 1a, 1b and 1c have hatched": what follows tells all."""
    start = at + (cursor.text_at(at) == "queen" and cursor.text_at(at + 1) in ("cell", "cells"))
    named = cursor.text_at(start + 1) in ("in", "of", "at") and cursor.units_at(start + 2)
    if cursor.text_at(start) not in _SUBJECTS or not named or _counted_in_box(cursor, start):
        return None
    following = {cursor.text_at(i) for i in range(start + 2, cursor.sentence_end(at))}
    if following & _STATES:
        return None, start + 2
    if start > at and "dead" in following:
        return Phrase(*cursor.span(at, start + 1), Sense(ambiguous=AmbiguousWord.CELL)), start + 2
    return None


def _counted_in_box(cursor: Cursor, at: int) -> bool:
    """Say whether so many of a box are spoken of: "both queens in box 2" may not be all of it."""
    before = cursor.text_at(at - 1)
    number = before == "both" or before.isdecimal() or before in NUMBERS
    found = unit_references_at(cursor.tokens, at + 2, to_is_run=False)
    return number and found is not None and any(not reference.letter for reference in found[0])


def _left_to_raise(cursor: Cursor, at: int) -> bool:
    """Say whether the verb belongs to a phrase after the units: "left 4c to raise their own"."""
    verb = cursor.text_at(at) in ("left", "leaving", "let", "letting") and cursor.units_at(at + 1)
    return verb and bool({word.text for word in cursor.tokens[at:]} & {"raise", "rear", "make"})


def _said(cursor: Cursor, at: int, sense: Sense, length: int) -> Found:
    span = cursor.span(at, at + length)
    after = at + length
    if sense.role is PhraseRole.NOISE:
        return None, after
    if sense.role is PhraseRole.EVERYTHING:
        return AllUnits(*span), after
    if sense.role is PhraseRole.SEPARATOR:
        return Break(*span, BreakStrength.AND), after
    if sense.options:
        return UnclearPart(*span, QuestionKind.WHICH_MEANING, sense.options), after
    return Phrase(*span, sense), after


def scan_destination(cursor: Cursor, at: int) -> Found | None:
    """Read where a queen or a unit went: "to 11", "into 4b", "to pat"."""
    if not cursor.moves or cursor.text_at(at) not in ("to", "into") or not _moved(cursor):
        return None
    if cursor.text_at(at + 1) in ("bank", "the") and "bank" in (
        cursor.text_at(at + 1),
        cursor.text_at(at + 2),
    ):
        return None
    end = _destination_end(cursor, at + 1)
    if end == at + 1:
        return None
    start, stop = cursor.span(at, end)
    return Destination(start, stop, cursor.text[cursor.tokens[at + 1].start : stop]), end


def scan_combined_with(cursor: Cursor, at: int) -> Found | None:
    """Ask which one stays of two units that were combined with each other."""
    kinds = [element.sense.kind for element in cursor.elements if isinstance(element, Phrase)]
    if cursor.text_at(at) != "with" or EntryKind.COMBINED not in kinds:
        return None
    named = [element for element in cursor.elements if isinstance(element, NamedUnits)]
    other = (
        unit_references_at(cursor.tokens, at + 1, to_is_run=False)
        if at + 1 < len(cursor.tokens)
        else None
    )
    if other is None:
        return None
    start, end = cursor.span(at + 1, other[1])
    units = [cursor.text[named[-1].start : named[-1].end] if named else "", cursor.text[start:end]]
    options = tuple(f"combined {a} into {b}" for a, b in (units, units[::-1])) if named else ()
    return UnclearPart(*cursor.span(at, other[1]), QuestionKind.WHICH_MEANING, options), other[1]


def _moved(cursor: Cursor) -> bool:
    recent: list[Element] = []
    for element in cursor.elements:
        recent = [] if isinstance(element, Break) else [*recent, element]
    kinds = {EntryKind.QUEEN_TAKEN, EntryKind.COMBINED}
    senses = [element.sense for element in recent if isinstance(element, Phrase)]
    return any(sense.kind in kinds or sense.ambiguous is AmbiguousWord.TAKE for sense in senses)


def _destination_end(cursor: Cursor, at: int) -> int:
    i = at
    while i < len(cursor.tokens) and cursor.text_at(i) not in {*SOFT, *HARD, "and", "from"}:
        if spoken_day_at(cursor.tokens, i) or (i > at and cursor.glued(i)):
            break
        i += 1
    return i
