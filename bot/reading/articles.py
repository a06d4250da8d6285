"""The letter "a": a compartment, or the article before what was seen."""

from collections.abc import Sequence

from bot.reading.lexicon.measures import LETTER_WORDS
from bot.reading.tokens.token import Token, text_at

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
