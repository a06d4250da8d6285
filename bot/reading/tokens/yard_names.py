"""How a text calls yards: by their names, or by the beginning of one where that is clear."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from bot.reading.lexicon.phrase_table import vocabulary
from bot.reading.tokens.token import Token, TokenForm, normalise, text_at, tokenise
from bot.reading.tokens.typos import ORDINARY

_SHORTEST = 3
"""Letters of a word by which alone a yard with a longer name may be called."""


@dataclass(frozen=True)
class SpokenName:
    """Words by which yards are called.

    Attributes:
        words: the tokens, marks among them; those may be left out.
        yards: the yards' names; several where the words are the beginning of each.
    """

    words: tuple[Token, ...]
    yards: tuple[str, ...]

    def after(self, tokens: Sequence[Token], at: int) -> int | None:
        """Give the index of the token after the name, if it stands at ``at``."""
        for word in self.words:
            if text_at(tokens, at) == word.text:
                at += 1
            elif word.form is not TokenForm.MARK:
                return None
        return at

    @property
    def pattern(self) -> str:
        """A regular expression for the name in a normalised text."""
        parts = (
            rf"\s*{re.escape(word.text)}{'?' if word.form is TokenForm.MARK else ''}"
            for word in self.words
        )
        return rf"(?<!\w)(?:the )?(?:{''.join(parts).removeprefix(chr(92) + 's*')})(?!\w)"


def spoken_names(names: Sequence[str], current: str | None = None) -> tuple[SpokenName, ...]:
    """Give all by which yards may be called, of two that begin alike the longer first.

    Args:
        names: the yards' names.
        current: the yard that the talk is in; of several that one is meant.
    """
    said = {name: tuple(tokenise(normalise(name))) for name in names}
    whole = {name: words for name, words in said.items() if _texts(words)}
    found = {_texts(words): SpokenName(words, (name,)) for name, words in whole.items()}
    for words in whole.values():
        for short in _beginnings(words):
            if _texts(short) not in found:
                meant = [name for name, each in whole.items() if _begins(each, short)]
                here = (current,) if current is not None and current in meant else tuple(meant)
                found[_texts(short)] = SpokenName(short, here)
    return tuple(sorted(found.values(), key=lambda each: -len(_texts(each.words))))


def yard_called(text: str, names: Sequence[str], current: str | None = None) -> str | None:
    """Give the yard that a whole text names, if it is one."""
    tokens = tokenise(normalise(text))
    for spoken in spoken_names(names, current):
        if spoken.after(tokens, 0) == len(tokens) and len(spoken.yards) == 1:
            return spoken.yards[0]
    return None


def yard_apart(text: str, names: Sequence[str], current: str | None) -> tuple[str | None, str]:
    """Take a yard's name off the beginning or the end of a text; gives it, and the rest."""
    for spoken in spoken_names(names, current):
        if len(spoken.yards) == 1:
            before = rf"(?:at )?{spoken.pattern}[:,]? (?P<rest>.+)"
            after = rf"(?P<rest>.+?),? (?:(?:at|in|for) )?{spoken.pattern}"
            for form in (after, before):
                if found := re.fullmatch(form, text, re.IGNORECASE):
                    return spoken.yards[0], found["rest"]
    return None, text


def is_same_name(one: str, other: str) -> bool:
    """Tell whether two names are typed alike, whatever their capitals and marks."""
    texts = [_texts(tokenise(normalise(name))) for name in (one, other)]
    return one.casefold() == other.casefold() or (texts[0] == texts[1] != ())


def _texts(words: Sequence[Token]) -> tuple[str, ...]:
    return tuple(word.text for word in words if word.form is not TokenForm.MARK)


def _beginnings(words: tuple[Token, ...]) -> list[tuple[Token, ...]]:
    """Give the shorter forms of a name that mean nothing else."""
    whole = _texts(words)
    found = {_texts(words[:end]): words[:end] for end in range(1, len(words))}
    return [short for texts, short in found.items() if texts != whole and _is_free(texts)]


def _is_free(texts: tuple[str, ...]) -> bool:
    known = all(text in vocabulary() or text in ORDINARY for text in texts)
    return not known and any(len(text) >= _SHORTEST and text.isalpha() for text in texts)


def _begins(words: tuple[Token, ...], short: tuple[Token, ...]) -> bool:
    texts = _texts(short)
    return _texts(words)[: len(texts)] == texts
