"""Units and yards by name, what could be a unit or a word, and bare numbers after units."""

from collections.abc import Sequence

from bot.reading.lexicon.measures import LETTER_WORDS, MAY_BE_NUMBERS, NUMBERS, POSITIONS, Measure
from bot.reading.lexicon.sense import AmbiguousWord
from bot.reading.result import QuestionKind
from bot.reading.scan.elements import (
    HARD,
    SOFT,
    AtYard,
    Cursor,
    Found,
    NamedUnits,
    Phrase,
    Quantity,
    UnclearPart,
)
from bot.reading.scan.unit_references import (
    UnitReference,
    article_or_letter,
    is_letter,
    unit_references_at,
)
from bot.reading.tokens.amounts import Amount
from bot.reading.tokens.token import TokenForm
from scheduling.entry_kinds import EntryKind

_PREPOSITIONS = frozenset({"in", "into", "to", "on", "at"})
_PLURALS = frozenset({"virgins", "queens", "larvae", "drones"})
_COUNTED_NOUNS = frozenset({"eggs", "cells", "virgin", "queen", "cell", "dud", "duds"})
_AUXILIARIES = frozenset(
    ["is", "are", "did", "does", "do", "has", "have", "was", "were", "can", "will", "should"]
)


def scan_yard(cursor: Cursor, at: int) -> Found | None:
    """Read a yard's name, or what begins the names of several."""
    start = at + (cursor.text_at(at) == "at")
    after_the = start + (cursor.text_at(start) == "the")
    for spoken in cursor.yards:
        for begin in dict.fromkeys((start, after_the)):
            after = spoken.after(cursor.tokens, begin)
            if after is not None:
                return _yard_meant(cursor, at, after, spoken.yards)
    return None


def _yard_meant(cursor: Cursor, at: int, after: int, yards: Sequence[str]) -> Found:
    after += cursor.text_at(after) == "yard"
    span = cursor.span(at, after)
    if len(yards) > 1:
        return UnclearPart(*span, QuestionKind.WHICH_YARD, tuple(yards)), after
    return AtYard(*span, yards[0]), after


def scan_units(cursor: Cursor, at: int) -> Found | None:
    """Read names of units, with the preposition before them."""
    start = at + (cursor.text_at(at) in _PREPOSITIONS)
    start += 2 * (cursor.moves and (cursor.text_at(at), cursor.text_at(at + 1)) == ("out", "of"))
    if start >= len(cursor.tokens):
        return None
    found = unit_references_at(cursor.tokens, start, to_is_run=not cursor.moves)
    if found is None:
        return None
    counted = _stray_number(cursor, found[0], start, found[1])
    if counted is not None:
        return counted, found[1]
    if _counts(cursor, found[0][-1], found[1]):
        return UnclearPart(*cursor.span(at, found[1]), QuestionKind.WHICH_MEANING), found[1]
    return NamedUnits(*cursor.span(at, found[1]), found[0], into=start > at), found[1]


def scan_part_of(cursor: Cursor, at: int) -> Found | None:
    """Ask about "2 of 3 laying": which two is not said."""
    parts = [cursor.text_at(at + step) for step in range(3)]
    numbers = all(part.isdecimal() or part in NUMBERS for part in (parts[0], parts[2]))
    if parts[1] != "of" or not numbers or cursor.text_at(at - 1) in ("all", "box", "unit"):
        return None
    return UnclearPart(*cursor.span(at, at + 3), QuestionKind.WHICH_MEANING), at + 3


def _counts(cursor: Cursor, reference: UnitReference, after: int) -> bool:
    """Say whether a number may count what follows it: "4b 2 virgins" is not box 2."""
    glued = cursor.tokens[after - 1].form is TokenForm.GLUED
    if reference.letter or reference.position or reference.to or glued:
        return False
    if cursor.text_at(after) == "of" or cursor.text_at(after - 2) in ("all", "only"):
        return True
    noun = cursor.text_at(after)
    before = cursor.elements[-1] if cursor.elements else None
    lettered = isinstance(before, NamedUnits) and bool(before.references[-1].letter)
    return noun in _PLURALS or (lettered and noun in _COUNTED_NOUNS)


def scan_letter(cursor: Cursor, at: int) -> Found | None:
    """Read a compartment's letter whose box was named before: "4a eggs, b none"."""
    lone = len(cursor.text_at(at)) == 1 and is_letter(cursor.tokens, at)
    if not lone or not any(isinstance(element, NamedUnits) for element in cursor.elements):
        return None
    if cursor.text_at(at) == "a" and not _after_break(cursor, at):
        return None
    return NamedUnits(*cursor.span(at, at + 1), (UnitReference(None, cursor.text_at(at)),)), at + 1


def scan_position(cursor: Cursor, at: int) -> Found | None:
    """Read a position whose box was named before: "4 left eggs, right none"."""
    start = at + (cursor.text_at(at) == "the")
    where = POSITIONS.get(cursor.text_at(start))
    named = [element for element in cursor.elements if isinstance(element, NamedUnits)]
    if where is None or not named or not named[-1].references[-1].position:
        return None
    if not _after_break(cursor, at):
        return None
    reference = UnitReference(None, position=where)
    return NamedUnits(*cursor.span(at, start + 1), (reference,)), start + 1


def _after_break(cursor: Cursor, at: int) -> bool:
    before = cursor.text_at(at - 1)
    return before in {*SOFT, *HARD, "and", "except"}


_HEARD_LETTERS = {"see": "c"}
"""Letters that dictation writes as words, beside those that only ever are letters."""


def scan_homophone(cursor: Cursor, at: int) -> Found | None:
    """Ask about "to be eggs": 2b, or "to be"."""
    text, following = cursor.text_at(at), cursor.text_at(at + 1)
    letter_said = _HEARD_LETTERS.get(following) or LETTER_WORDS.get(following)
    if text not in MAY_BE_NUMBERS or letter_said is None:
        return None
    if following in ("a", "eh", "ay", "see") and not (at == 0 and cursor.text_at(at + 2)):
        return None
    unit = f"{MAY_BE_NUMBERS[text]}{letter_said}"
    return UnclearPart(*cursor.span(at, at + 2), QuestionKind.WHICH_MEANING, (unit,)), at + 2


def scan_word_or_letter(cursor: Cursor, at: int) -> Found | None:
    """Ask about "4 a virgin": 4a, or a virgin in box 4; and "four see eggs": 4c, or seen there."""
    before = cursor.elements[-1] if at and cursor.elements else None
    if not isinstance(before, NamedUnits) or not cursor.whole_box(before):
        return None
    adjoins = before.end == cursor.tokens[at - 1].end
    if cursor.text_at(at) == "see":
        letter = "c"
    elif adjoins and article_or_letter(cursor.tokens, at):
        letter = "a"
    else:
        return None
    span = before.start, cursor.tokens[at].end
    unit = f"{before.references[-1].box}{letter}"
    return UnclearPart(*span, QuestionKind.WHICH_MEANING, (unit,)), at + 1


def scan_asking(cursor: Cursor, at: int) -> Found | None:
    """Notice "is 4b laying", which asks and does not tell."""
    first = at == 0 or cursor.text_at(at - 1) in HARD
    if not first or cursor.text_at(at) not in _AUXILIARIES or not cursor.units_at(at + 1):
        return None
    return UnclearPart(*cursor.span(at, at + 1), QuestionKind.NOT_UNDERSTOOD), at + 1


_COUNTED: set[EntryKind | AmbiguousWord] = {
    EntryKind.FED,
    EntryKind.STORES,
    EntryKind.TRAP_SERVICED,
    AmbiguousWord.TRAP,
    AmbiguousWord.FOOD,
}
"""What a number without its measure may belong to."""
_TRAP: set[EntryKind | AmbiguousWord] = {EntryKind.TRAP_SERVICED, AmbiguousWord.TRAP}


def _stray_number(
    cursor: Cursor, references: Sequence[UnitReference], start: int, after: int
) -> Quantity | UnclearPart | None:
    """Give the count that a bare number is, an unclear part if it may be one, or None for a box."""
    bare = list(references) == [UnitReference(references[0].box)]
    lone = bare and after == start + 1
    if not lone or cursor.tokens[start].form is not TokenForm.NUMBER or not cursor.elements:
        return None
    if after < len(cursor.tokens) and cursor.text_at(after) not in {*SOFT, *HARD}:
        return None
    beside = _after_trap(cursor) or _after_unit(cursor)
    if not beside:
        return None
    span = cursor.span(start, after)
    box = references[0].box or 0
    if _tells(cursor, _TRAP) and (_after_trap(cursor) or not _may_be_box(cursor, box)):
        return Quantity(*span, Amount(Measure.BEETLES, float(box)))
    if cursor.boxes is not None and box in cursor.boxes and box not in (cursor.divided or ()):
        return None
    return UnclearPart(*span, QuestionKind.BAD_NUMBER)


def _after_trap(cursor: Cursor) -> bool:
    """Say whether the number follows a trap that follows its unit: "6a trap 14"."""
    before = cursor.elements[-1]
    trap = isinstance(before, Phrase) and {before.sense.kind, before.sense.ambiguous} & _TRAP
    return bool(trap) and any(isinstance(element, NamedUnits) for element in cursor.elements)


def _after_unit(cursor: Cursor) -> bool:
    """Say whether the number follows a unit at once, in a text of things counted: "fed 4a 3"."""
    before = cursor.elements[-1]
    return (
        isinstance(before, NamedUnits)
        and bool(before.references[-1].letter)
        and _tells(cursor, _COUNTED)
    )


def _tells(cursor: Cursor, what: set[EntryKind | AmbiguousWord]) -> bool:
    said = [element.sense for element in cursor.elements if isinstance(element, Phrase)]
    return any({sense.kind, sense.ambiguous} & what for sense in said)


def _may_be_box(cursor: Cursor, box: int) -> bool:
    return cursor.boxes is None or box in cursor.boxes
