"""Numbers and compartments' letters as people say them: 1/2, half a, one and a half; bee."""

from collections.abc import Sequence

from bot.reading.lexicon.measures import DOZEN, FRACTIONS, LETTER_WORDS, NUMBERS
from bot.reading.tokens.token import Token, TokenForm, text_at

_TENS = 20


def number_at(tokens: Sequence[Token], at: int) -> tuple[float, int] | None:
    """Read a number at ``at``: 2, 1.5, 1/2, 1 1/2, two, half a, one and a half, a quarter."""
    whole = _plain(tokens, at)
    if whole is None:
        return _fraction(tokens, at)
    after = spoken_number(tokens, at)[1] if tokens[at].form is TokenForm.WORD else at + 1
    if text_at(tokens, after) == "and" and (more := _fraction(tokens, after + 1)):
        return whole + more[0], more[1]
    if (more := _slash(tokens, after)) and float(whole).is_integer():
        return whole + more[0], more[1]
    if text_at(tokens, after) in FRACTIONS and text_at(tokens, after) != "half":
        return round(whole * FRACTIONS[text_at(tokens, after)], 3), _skip_of(tokens, after + 1)
    return whole, after


def spoken_number(tokens: Sequence[Token], at: int) -> tuple[float | None, int]:
    """Read "twenty one" or "nine"; give it, or None, and the index after it."""
    number = NUMBERS.get(text_at(tokens, at))
    ones = NUMBERS.get(text_at(tokens, at + 1), 0)
    if number is not None and number >= _TENS and 0 < ones < 10:
        return number + ones, at + 2
    return number, at + 1


def _plain(tokens: Sequence[Token], at: int) -> float | None:
    if at >= len(tokens):
        return None
    if tokens[at].form is TokenForm.NUMBER:
        return float(tokens[at].text)
    number = DOZEN.get(tokens[at].text, spoken_number(tokens, at)[0])
    return None if number is None else float(number)


def _slash(tokens: Sequence[Token], at: int) -> tuple[float, int] | None:
    if (
        at >= len(tokens)
        or tokens[at].form is not TokenForm.SLASH
        or tokens[at].text.count("/") != 1
    ):
        return None
    above, below = map(int, tokens[at].text.split("/"))
    return (round(above / below, 3), at + 1) if 0 < above < below else None


def _fraction(tokens: Sequence[Token], at: int) -> tuple[float, int] | None:
    if (found := _slash(tokens, at)) is not None:
        return found
    start = at + (text_at(tokens, at) in ("a", "an"))
    if text_at(tokens, start) in FRACTIONS:
        return FRACTIONS[text_at(tokens, start)], _skip_of(tokens, start + 1)
    return None


def _skip_of(tokens: Sequence[Token], at: int) -> int:
    """Pass over "of a" in "half of a frame"."""
    after = at + (text_at(tokens, at) == "of")
    return after + (text_at(tokens, after) in ("a", "an"))


_LAYING = frozenset({("laying", "queen"), ("laying", "worker")})
_ARTICLE_BEFORE = frozenset(
    [
        "virgin", "queen", "dud", "cell", "caged", "good", "spotty", "bit", "few", "little",
        "lot", "jar", "quart", "pint", "half", "quarter", "frame", "trap", "drone", "nice",
        "dead", "new", "mated", "ripe", "solid", "note", "third", "gallon", "sealed", "torn",
        "shake", "young", "great", "lovely", "big", "small", "marked", "capped", "swarm",
    ]
)  # fmt: skip
"""After these "a" is an article as well as a compartment."""


def is_letter(tokens: Sequence[Token], at: int) -> bool:
    """Say whether a compartment's letter stands at ``at``, and not the article "a"."""
    return text_at(tokens, at) in LETTER_WORDS and not article_or_letter(tokens, at)


def article_or_letter(tokens: Sequence[Token], at: int) -> bool:
    """Say whether "a" at ``at`` could be an article or a compartment."""
    following = text_at(tokens, at + 1), text_at(tokens, at + 2)
    if following == ("half", "a"):
        return False
    noun = following[0] in _ARTICLE_BEFORE or following in _LAYING
    return text_at(tokens, at) == "a" and noun
