"""Days, days to put off to, numbers with their measure; and a batch, told by both in one phrase."""

from collections.abc import Sequence

from bot.reading.lexicon.measures import MONTHS, MOST_GRAFTED, OLDEST_LARVA_HOURS, Measure
from bot.reading.result import QuestionKind
from bot.reading.scan.elements import (
    HARD,
    SOFT,
    Cursor,
    Found,
    GraftedBatch,
    GraftedOn,
    NamedUnits,
    OnDay,
    Phrase,
    Quantity,
    UnclearPart,
    Until,
)
from bot.reading.tokens.amounts import Amount, amount_at, bare_frames_at, number_at
from bot.reading.tokens.dates import SpokenDay, spoken_day_at
from bot.reading.tokens.token import Token, TokenForm
from scheduling.entry_kinds import EntryKind
from scheduling.values import Graft


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
    if parts[1] != "-" or not (parts[0].isdecimal() and parts[2].isdecimal()):
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
    if days == text or not days.isdecimal() or not _AGED & {token.text for token in cursor.tokens}:
        return None
    stands = cursor.boxes is None or int(days) in cursor.boxes
    return None if stands else (Amount(Measure.DAYS, float(days)), at + 1)


_NOISE = frozenset({"cells", "cell", "larvae", "larva", "cups", "on", "old", "about", "of", "with"})
_PLACED = frozenset({"in", "into", "to"})


def scan_graft(cursor: Cursor, at: int) -> Found | None:
    """Read "grafted 40 from 12b" or "grafted 2 May"."""
    return _grafted_at(cursor.tokens, at, cursor.text)


def _grafted_at(
    tokens: Sequence[Token], at: int, text: str
) -> tuple[GraftedOn | GraftedBatch, int] | None:
    """Read the phrase at ``at``: the graft day of cells named beside it, or a batch."""
    if tokens[at].text not in ("grafted", "graft"):
        return None
    if _cells_placed(tokens, at):
        return _grafted_on(tokens, at)
    return _batch(tokens, at, text)


def _cells_placed(tokens: Sequence[Token], at: int) -> bool:
    """Say whether the sentence also puts cells into units."""
    texts = [token.text for token in tokens]
    before = {"cell", "cells", "celled"} & set(texts[_line_start(texts, at) : at])
    after = any(
        texts[i] in ("cell", "cells") and (set(texts[i + 1 : i + 2]) & _PLACED or _named(tokens, i))
        for i in range(at + 1, len(tokens))
    )
    return bool(before) or after


def _named(tokens: Sequence[Token], at: int) -> bool:
    return at + 1 < len(tokens) and tokens[at + 1].form is TokenForm.GLUED


def _line_start(texts: Sequence[str], at: int) -> int:
    stops = [i for i in range(at) if texts[i] in ("\n", ";", ".")]
    return stops[-1] + 1 if stops else 0


def _grafted_on(tokens: Sequence[Token], at: int) -> tuple[GraftedOn, int] | None:
    start = at + 1
    while start < len(tokens) and tokens[start].text in ("on", "of", "from", "the"):
        start += 1
    found = spoken_day_at(tokens, start) if start < len(tokens) else None
    if found is None:
        return None
    return GraftedOn(tokens[at].start, tokens[found[1] - 1].end, found[0]), found[1]


class _Telling:
    """What has been read of a batch so far."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.count: float | None = None
        self.mother: str | None = None
        self.hours: float | None = None
        self.day: SpokenDay | None = None


def _batch(tokens: Sequence[Token], at: int, text: str) -> tuple[GraftedBatch, int]:
    told, i = _Telling(text), at + 1
    while i < len(tokens) and (after := _take(tokens, i, told)):
        i = after
    graft = Graft(None if told.count is None else int(told.count), told.mother, told.hours)
    return GraftedBatch(tokens[at].start, tokens[i - 1].end, graft, told.day, _possible(told)), i


def _possible(told: _Telling) -> bool:
    count, hours = told.count, told.hours
    sound_count = count is None or (count.is_integer() and 0 < count <= MOST_GRAFTED)
    return sound_count and (hours is None or 0 <= hours <= OLDEST_LARVA_HOURS)


def _take(tokens: Sequence[Token], i: int, told: _Telling) -> int:
    """Read one more piece of the phrase; 0 when it has ended."""
    if (day := spoken_day_at(tokens, i)) and told.day is None:
        told.day = day[0]
        return day[1]
    if (age := amount_at(tokens, i)) and age[0].measure in (Measure.HOURS, Measure.DAYS):
        told.hours = age[0].number * (24 if age[0].measure is Measure.DAYS else 1)
        return age[1]
    if tokens[i].text == "from" and told.mother is None:
        return _mother(tokens, i + 1, told)
    if (count := number_at(tokens, i)) and told.count is None:
        told.count = count[0]
        return count[1]
    return i + 1 if tokens[i].text in _NOISE or _goes_on(tokens, i) else 0


def _goes_on(tokens: Sequence[Token], i: int) -> bool:
    """Say whether a comma stands before a further piece of the same phrase."""
    if tokens[i].text != "," or i + 1 >= len(tokens):
        return False
    following = tokens[i + 1]
    return following.text in {*_NOISE, "from"} or bool(
        spoken_day_at(tokens, i + 1)
        or (following.form is TokenForm.NUMBER and amount_at(tokens, i + 1))
    )


def _mother(tokens: Sequence[Token], start: int, told: _Telling) -> int:
    i = start
    while i < len(tokens) and not _ends_name(tokens, i, start):
        i += 1
    told.mother = told.text[tokens[start].start : tokens[i - 1].end] if i > start else None
    return i if i > start else 0


def _ends_name(tokens: Sequence[Token], i: int, start: int) -> bool:
    if tokens[i].text in {*_NOISE, "at", "and", ".", ";", ",", "\n"} or spoken_day_at(tokens, i):
        return True
    return i > start and bool(amount_at(tokens, i))
