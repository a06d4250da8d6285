"""Days, days to put off to, and numbers with their measure."""

from bot.reading.atoms import Much, Puzzle, Said, Till, Units, When
from bot.reading.lexicon.measures import MONTHS, Measure
from bot.reading.result import QuestionKind
from bot.reading.sight import HARD, SOFT, Found, Sight
from bot.reading.tokens.amounts import Amount, amount_at, bare_frames_at
from bot.reading.tokens.dates import spoken_day_at
from bot.reading.tokens.token import TokenForm
from scheduling.entry_kinds import EntryKind


def till(sight: Sight, at: int) -> Found | None:
    """Read "till friday", and the day after "check again"."""
    plain_till = sight.text_at(at) in ("till", "until", "til")
    put_off = sight.last_kind() is EntryKind.PUT_OFF
    to_a_day = sight.text_at(at) == "to" and put_off
    start = at + (plain_till or to_a_day)
    if not (plain_till or put_off) or start >= len(sight.words):
        return None
    start += sight.text_at(start) in ("next", "on", "the")
    found = spoken_day_at(sight.words, start) if start < len(sight.words) else None
    if found is None or (not (plain_till or to_a_day) and not found[0].lies_ahead):
        return None
    return Till(*sight.span(at, found[1]), found[0]), found[1]


def when(sight: Sight, at: int) -> Found | None:
    """Read the day something happened."""
    start = at + (sight.text_at(at) == "on")
    found = spoken_day_at(sight.words, start) if start < len(sight.words) else None
    if found is None or _slash_is_share(sight, start):
        return None
    return When(*sight.span(at, found[1]), found[0]), found[1]


def dashed(sight: Sight, at: int) -> Found | None:
    """Ask about "4b eggs 5-10": boxes 5 to 10, or a day."""
    parts = [sight.text_at(at + step) for step in range(3)]
    if parts[1] != "-" or not (parts[0].isdigit() and parts[2].isdigit()):
        return None
    last = at + 3 >= len(sight.words) or sight.text_at(at + 3) in {*SOFT, *HARD}
    before = sight.atoms[-1] if sight.atoms else None
    told = any(isinstance(atom, Units) for atom in sight.atoms) and isinstance(before, Said)
    if not last or not told or not 1 <= int(parts[0]) <= _LAST or not 1 <= int(parts[2]) <= _LAST:
        return None
    return Puzzle(*sight.span(at, at + 3), QuestionKind.WHICH_DATE), at + 3


def impossible(sight: Sight, at: int) -> Found | None:
    """Ask about "32 may": a day that is in no calendar, and not box 32."""
    number, month = (sight.words[at], sight.text_at(at + 1))
    if number.form is not TokenForm.NUMBER or month not in MONTHS or spoken_day_at(sight.words, at):
        return None
    return Puzzle(*sight.span(at, at + 2), QuestionKind.WHICH_DATE), at + 2


_LAST = 31
"""No day of a month has a higher number."""


def _slash_is_share(sight: Sight, at: int) -> bool:
    """Say whether 1/2 is a part of a frame or quart rather than a day."""
    return sight.words[at].form is TokenForm.SLASH and amount_at(sight.words, at) is not None


def amount(sight: Sight, at: int) -> Found | None:
    """Read a number with its measure."""
    if sight.words[at].form is TokenForm.NUMBER and sight.text_at(at - 1) in (
        "box",
        "unit",
        "boxes",
    ):
        return None
    found = amount_at(sight.words, at) or _unsaid_measure(sight, at)
    if found is None:
        return None
    after = found[1] + (found[0].measure is Measure.DAYS and sight.text_at(found[1]) == "old")
    return Much(*sight.span(at, after), found[0]), after


_AGED = frozenset({"cell", "cells", "virgin", "virgins"})


def _unsaid_measure(sight: Sight, at: int) -> tuple[Amount, int] | None:
    """Read frames of a make-up without the word, and "10d" beside a cell when no box 10 stands."""
    if sight.last_kind() is EntryKind.MADE_UP:
        return bare_frames_at(sight.words, at)
    text = sight.text_at(at)
    days = text.removesuffix("d")
    if days == text or not days.isdigit() or not _AGED & {word.text for word in sight.words}:
        return None
    stands = sight.boxes is None or int(days) in sight.boxes
    return None if stands else (Amount(Measure.DAYS, float(days)), at + 1)
