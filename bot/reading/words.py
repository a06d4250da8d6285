"""A text cut into words, numbers and marks."""

import re
import unicodedata
from dataclasses import dataclass
from enum import StrEnum

from bot.reading.rewrites import written_out


class Form(StrEnum):
    """What a word looks like."""

    ISO = "iso"
    SLASH = "slash"
    RATIO = "ratio"
    ORDINAL = "ordinal"
    GLUED = "glued"
    """A box number with its letters, "4b" or "4abc"."""
    NUMBER = "number"
    WORD = "word"
    LINE = "line"
    MARK = "mark"


@dataclass(frozen=True)
class Word:
    """One word of a text.

    ``text`` is in lower case and may have been corrected; ``start`` and ``end`` are its place in
    the plain text.
    """

    form: Form
    text: str
    start: int
    end: int


_FULL_STOP = r"(?<=[^\W\d_])\.(?=\d{1,4}[a-h]{1,8}(?![^\W\d_]))"
"""The dot of "4a eggs.4b none", which begins no number."""

_WORDS = re.compile(
    r"(?P<iso>\d{4}-\d{2}-\d{2})"
    r"|(?P<slash>\d{1,2}/\d{1,2}(?:/\d{2,4})?(?![\d/]))"
    r"|(?P<ratio>\d(?:\.\d)?:\d(?:\.\d)?(?!\d))"
    r"|(?P<ordinal>\d{1,2}(?:st|nd|rd|th)\b)"
    r"|(?P<glued>\d{1,4}[a-h]{1,8}(?![^\W\d_]))"
    rf"|(?P<number>(?!{_FULL_STOP})\d*\.\d+|\d+)"
    r"|(?P<word>[^\W\d_]+)"
    r"|(?P<line>\n)"
    r"|(?P<mark>[^\s\w]|_)",
    re.IGNORECASE,
)


def plain(text: str) -> str:
    """Give the text with its contractions written out and its signs made plain."""
    return unicodedata.normalize("NFKC", written_out(text)).strip()


def cut(text: str) -> list[Word]:
    """Cut a plain text into words; white space is dropped, line ends are kept."""
    found: list[Word] = []
    for match in _WORDS.finditer(text):
        form = Form(str(match.lastgroup))
        found.extend(_split(Word(form, match.group().lower(), match.start(), match.end())))
    return found


def _split(word: Word) -> list[Word]:
    """Give "5fed" as a number and a word: only letters in order can be compartments."""
    if word.form is not Form.GLUED:
        return [word]
    digits = word.text.rstrip("abcdefgh")
    letters = word.text[len(digits) :]
    if list(letters) == sorted(set(letters)):
        return [word]
    middle = word.start + len(digits)
    return [
        Word(Form.NUMBER, digits, word.start, middle),
        Word(Form.WORD, letters, middle, word.end),
    ]
