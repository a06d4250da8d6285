"""Numbers as people write and say them: 2, 1.5, 1/2, two, half a, one and a half."""

from collections.abc import Sequence

from bot.reading.articles import text_at as _text
from bot.reading.lexicon.measures import DOZEN, FRACTIONS, NUMBERS
from bot.reading.words import Form, Word

_TENS = 20


def number_at(words: Sequence[Word], at: int) -> tuple[float, int] | None:
    """Read a number at ``at``: 2, 1.5, 1/2, 1 1/2, two, half a, one and a half, a quarter."""
    whole = _plain(words, at)
    if whole is None:
        return _fraction(words, at)
    after = spoken_number(words, at)[1] if words[at].form is Form.WORD else at + 1
    if _text(words, after) == "and" and (more := _fraction(words, after + 1)):
        return whole + more[0], more[1]
    if (more := _slash(words, after)) and float(whole).is_integer():
        return whole + more[0], more[1]
    if _text(words, after) in FRACTIONS and _text(words, after) != "half":
        return round(whole * FRACTIONS[_text(words, after)], 3), _skip_of(words, after + 1)
    return whole, after


def spoken_number(words: Sequence[Word], at: int) -> tuple[float | None, int]:
    """Read "twenty one" or "nine"; give it, or None, and the index after it."""
    number = NUMBERS.get(_text(words, at))
    ones = NUMBERS.get(_text(words, at + 1), 0)
    if number is not None and number >= _TENS and 0 < ones < 10:
        return number + ones, at + 2
    return number, at + 1


def _plain(words: Sequence[Word], at: int) -> float | None:
    if at >= len(words):
        return None
    if words[at].form is Form.NUMBER:
        return float(words[at].text)
    number = DOZEN.get(words[at].text, spoken_number(words, at)[0])
    return None if number is None else float(number)


def _slash(words: Sequence[Word], at: int) -> tuple[float, int] | None:
    if at >= len(words) or words[at].form is not Form.SLASH or words[at].text.count("/") != 1:
        return None
    above, below = map(int, words[at].text.split("/"))
    return (round(above / below, 3), at + 1) if 0 < above < below else None


def _fraction(words: Sequence[Word], at: int) -> tuple[float, int] | None:
    if (found := _slash(words, at)) is not None:
        return found
    start = at + (_text(words, at) in ("a", "an"))
    if _text(words, start) in FRACTIONS:
        return FRACTIONS[_text(words, start)], _skip_of(words, start + 1)
    return None


def _skip_of(words: Sequence[Word], at: int) -> int:
    """Pass over "of a" in "half of a frame"."""
    after = at + (_text(words, at) == "of")
    return after + (_text(words, after) in ("a", "an"))
