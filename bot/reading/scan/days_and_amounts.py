"""Days, days to put off to, numbers with their measure, and bare numbers after units."""

from collections.abc import Sequence

from bot.reading.lexicon.measures import MONTHS, Measure
from bot.reading.lexicon.sense import AmbiguousWord
from bot.reading.result import QuestionKind
from bot.reading.scan.elements import (
    HARD,
    SOFT,
    Cursor,
    Found,
    NamedUnits,
    OnDay,
    Phrase,
    Quantity,
    UnclearPart,
    Until,
)
from bot.reading.scan.unit_references import UnitReference
from bot.reading.tokens.amounts import Amount, amount_at, bare_frames_at
from bot.reading.tokens.dates import spoken_day_at
from bot.reading.tokens.token import TokenForm
from scheduling.entry_kinds import EntryKind


def scan_until(cursor: Cursor, at: int) -> Found | None:
    """Read "till friday", and the day after "check again"."""
    plain_till = cursor.text_at(at) in ("till", "until", "til")
    put_off = cursor.last_kind() is EntryKind.PUT_OFF
    to_a_day = cursor.text_at(at) == "to" and put_off
    start = at + (plain_till or to_a_day)
    if not (plain_till or put_off) or start >= len(cursor.tokens):
        return None
    start += cursor.text_at(start) in ("next", "on", "the")
    found = spoken_day_at(cursor.tokens, start) if start < len(cursor.tokens) else None
    if found is None or (not (plain_till or to_a_day) and not found[0].lies_ahead):
        return None
    return Until(*cursor.span(at, found[1]), found[0]), found[1]


def scan_day(cursor: Cursor, at: int) -> Found | None:
    """Read the day something happened."""
    start = at + (cursor.text_at(at) == "on")
    found = spoken_day_at(cursor.tokens, start) if start < len(cursor.tokens) else None
    if found is None or _slash_is_share(cursor, start):
        return None
    return OnDay(*cursor.span(at, found[1]), found[0]), found[1]


def scan_dashed_numbers(cursor: Cursor, at: int) -> Found | None:
    """Ask about "4b eggs 5-10": boxes 5 to 10, or a day."""
    parts = [cursor.text_at(at + step) for step in range(3)]
    if parts[1] != "-" or not (parts[0].isdigit() and parts[2].isdigit()):
        return None
    last = at + 3 >= len(cursor.tokens) or cursor.text_at(at + 3) in {*SOFT, *HARD}
    before = cursor.elements[-1] if cursor.elements else None
    units = any(isinstance(element, NamedUnits) for element in cursor.elements)
    told = units and isinstance(before, Phrase)
    if not last or not told or not 1 <= int(parts[0]) <= _LAST or not 1 <= int(parts[2]) <= _LAST:
        return None
    return UnclearPart(*cursor.span(at, at + 3), QuestionKind.WHICH_DATE), at + 3


def scan_impossible_day(cursor: Cursor, at: int) -> Found | None:
    """Ask about "32 may": a day that is in no calendar, and not box 32."""
    before_month = cursor.text_at(at + 1) in MONTHS
    number = cursor.tokens[at].form is TokenForm.NUMBER
    if not number or not before_month or spoken_day_at(cursor.tokens, at):
        return None
    return UnclearPart(*cursor.span(at, at + 2), QuestionKind.WHICH_DATE), at + 2


_LAST = 31
"""No day of a month has a higher number."""


def _slash_is_share(cursor: Cursor, at: int) -> bool:
    """Say whether 1/2 is a part of a frame or quart rather than a day."""
    return cursor.tokens[at].form is TokenForm.SLASH and amount_at(cursor.tokens, at) is not None


def scan_quantity(cursor: Cursor, at: int) -> Found | None:
    """Read a number with its measure."""
    of_box = cursor.text_at(at - 1) in ("box", "unit", "boxes")
    if of_box and cursor.tokens[at].form is TokenForm.NUMBER:
        return None
    found = amount_at(cursor.tokens, at) or _unsaid_measure(cursor, at)
    if found is None:
        return None
    after = found[1] + (found[0].measure is Measure.DAYS and cursor.text_at(found[1]) == "old")
    return Quantity(*cursor.span(at, after), found[0]), after


_AGED = frozenset({"cell", "cells", "virgin", "virgins"})


def _unsaid_measure(cursor: Cursor, at: int) -> tuple[Amount, int] | None:
    """Read frames of a make-up without the word, and "10d" beside a cell when no box 10 stands."""
    if cursor.last_kind() is EntryKind.MADE_UP:
        return bare_frames_at(cursor.tokens, at)
    text = cursor.text_at(at)
    days = text.removesuffix("d")
    if days == text or not days.isdigit() or not _AGED & {token.text for token in cursor.tokens}:
        return None
    stands = cursor.boxes is None or int(days) in cursor.boxes
    return None if stands else (Amount(Measure.DAYS, float(days)), at + 1)


_COUNTED: set[EntryKind | AmbiguousWord] = {
    EntryKind.FED,
    EntryKind.STORES,
    EntryKind.TRAP_SERVICED,
    AmbiguousWord.TRAP,
    AmbiguousWord.FOOD,
}
"""What a number without its measure may belong to."""
_TRAP: set[EntryKind | AmbiguousWord] = {EntryKind.TRAP_SERVICED, AmbiguousWord.TRAP}


def stray_number(
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
