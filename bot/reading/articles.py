"""The letter "a": a compartment, or the article before what was seen."""

from collections.abc import Sequence

from bot.reading.lexicon.measures import LETTER_WORDS
from bot.reading.words import Word

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


def text_at(words: Sequence[Word], at: int) -> str:
    """Give the word at ``at``, or nothing beyond either end."""
    return words[at].text if 0 <= at < len(words) else ""


def is_letter(words: Sequence[Word], at: int) -> bool:
    """Say whether a compartment's letter stands at ``at``, and not the article "a"."""
    return text_at(words, at) in LETTER_WORDS and not article_or_letter(words, at)


def article_or_letter(words: Sequence[Word], at: int) -> bool:
    """Say whether "a" at ``at`` could be an article or a compartment."""
    following = text_at(words, at + 1), text_at(words, at + 2)
    if following == ("half", "a"):
        return False
    noun = following[0] in _ARTICLE_BEFORE or following in _LAYING
    return text_at(words, at) == "a" and noun
