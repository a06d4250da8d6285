"""Days, days to put off to, and numbers with their measure."""

from bot.reading.amounts import amount_at
from bot.reading.atoms import Much, Till, When
from bot.reading.dates import spoken_at
from bot.reading.lexicon.measures import Measure
from bot.reading.sight import Found, Sight
from bot.reading.words import Form
from scheduling.entries import EntryKind

_LOOK_AGAIN = frozenset({"again", "recheck", "me", "look"})


def till(sight: Sight, at: int) -> Found | None:
    """Read "till friday", and the day after "check again"."""
    plain_till = sight.text_at(at) in ("till", "until", "til")
    to_a_day = sight.text_at(at) == "to" and sight.last_kind() is EntryKind.PUT_OFF
    again = sight.last_kind() is EntryKind.PUT_OFF and sight.text_at(at - 1) in _LOOK_AGAIN
    start = at + (plain_till or to_a_day)
    if not (plain_till or to_a_day or again) or start >= len(sight.words):
        return None
    start += sight.text_at(start) in ("next", "on", "the")
    found = spoken_at(sight.words, start) if start < len(sight.words) else None
    if found is None:
        return None
    return Till(*sight.span(at, found[1]), found[0]), found[1]


def when(sight: Sight, at: int) -> Found | None:
    """Read the day something happened."""
    start = at + (sight.text_at(at) == "on")
    found = spoken_at(sight.words, start) if start < len(sight.words) else None
    if found is None or _slash_is_share(sight, start):
        return None
    return When(*sight.span(at, found[1]), found[0]), found[1]


def _slash_is_share(sight: Sight, at: int) -> bool:
    """Say whether 1/2 is a part of a frame or quart rather than a day."""
    return sight.words[at].form is Form.SLASH and amount_at(sight.words, at) is not None


def amount(sight: Sight, at: int) -> Found | None:
    """Read a number with its measure."""
    if sight.words[at].form is Form.NUMBER and sight.text_at(at - 1) in ("box", "unit", "boxes"):
        return None
    found = amount_at(sight.words, at)
    if found is None:
        return None
    after = found[1] + (found[0].measure is Measure.DAYS and sight.text_at(found[1]) == "old")
    return Much(*sight.span(at, after), found[0]), after
