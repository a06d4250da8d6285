"""A text normalised (contractions, signs, what dictation hears) and cut into tokens."""

import re
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

_CONTRACTIONS = (
    (r"\b(?:can't|cant|cannot)\b", "can not"),
    (r"\b(?:won't|wont)\b", "will not"),
    (r"\b(?:ain't|aint)\b", "is not"),
    (r"\b(did|does|do|is|was|were|has|have|had|could|would|are)n'?t\b", r"\1 not"),
    (r"\b(did|does|is|was|has|have) nt\b", r"\1 not"),
    (r"'ll\b", " will"),
    (r"\b(she|he|it|that|there|here|what|who)'?s\b(?!')", r"\1 is"),
    (r"'(?:s|re|ve|m)\b", ""),
    (r"\bi'?m\b", "i am"),
    (r"\b(i|we|they)'?ve\b", r"\1 have"),
)
_SIGNS = (
    (r"\bw/o\b", "without "),
    (r"\bw/", "with "),
    (r"\bw(?= \d)", "with"),
    (r"(?<=\d)\s*½", ".5"),
    (r"½", " half "),
    (r"¼", " quarter "),
    (r"¾", " 0.75 "),
    (r"#\s?(?=\d)", " "),
    ("[👍🙂😀🐝🎉🥳😊😄😁🙏👌❤️😅😂🤣🍯✅✔]+", " "),
)
_LETTERS = (
    (r"\bq ?\+", "queen seen "),
    (r"\bq-(?!\w)", "q minus "),
    (r"\bvq\b", "virgin queen"),
    (r"\bq\b(?! ?minus)", "queen"),
)
_NEARLY = (
    (
        r"(?:\b(?:about|around|roughly|approximately|circa)\s|\bapprox\b\.?\s?|~\s?)"
        r"(?=(?:\d+|an?|half|quarter|one|two|three|four|five|six|eight|ten|twelve|twenty|thirty)\b)",
        "",
    ),
)
"""Words that make a number less sure; it is kept as the number said."""
_HAS = r"(?: (?:has|have|had|is|are|was|were|got|shows?|with)\b)*(?: any\b)?"
_UNIT = r"(?:box(?:es)? |unit )?\d+[a-h]*(?:-[a-h\d]+)?"
_NONE_OF = (
    (rf"\bneither ({_UNIT}) n?or ({_UNIT}){_HAS}", r"\1 and \2 no"),
    (r"\bneither (\w+) n?or (\w+)\b", r"no \1 and no \2"),
    (rf"\b(?:none|not one|not any) of ({_UNIT}){_HAS}", r"\1 no"),
    (rf"\b(?:none|not one) of (?:them|the (?:cells|queens|units)){_HAS}(?= \w)", "not"),
)
"""Denials that stand before the units they speak of."""
_HEARD = (
    (
        r"\b(the|a|an|queen|dead|ripe|old|new|dud|day|empty|sealed|capped|her|bad|good|torn|their)"
        r" sell(s?)\b",
        r"\1 cell\2",
    ),
    (r" full stop\b\.?", "."),
    (r" comma\b,?", ","),
    (r" (?:new ?line|next line)\b", "\n"),
    (r"\b(box(?:es)?|unit|nuc) for\b", r"\1 four"),
    (r"\b(box(?:es)?|unit|nuc) (?:to|too)\b", r"\1 two"),
    (r"\b(box(?:es)?|unit|nuc) won\b", r"\1 one"),
    (r"\b(box(?:es)?|unit|nuc) ate\b", r"\1 eight"),
)
"""What a phone hears: "sell" for cell, "box for" for box four."""

_REWRITES = tuple(
    (re.compile(pattern, re.IGNORECASE), plain)
    for pattern, plain in (
        *_CONTRACTIONS, *_SIGNS, *_LETTERS, *_NEARLY, *_NONE_OF, *_HEARD,
    )
)  # fmt: skip


def _written_out(text: str) -> str:
    """Give the text with its short forms written out and its signs made plain."""
    for odd, usual in (("\u2019", "'"), ("\u2018", "'"), ("\u2013", "-"), ("\u2014", "-")):
        text = text.replace(odd, usual)
    for pattern, plain in _REWRITES:
        text = pattern.sub(plain, text)
    return text


class TokenForm(StrEnum):
    """What a token looks like."""

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
class Token:
    """One token of a text: a word, a number, a mark or a line's end.

    ``text`` is in lower case and may have been corrected; ``start`` and ``end`` are its place in
    the normalised text.
    """

    form: TokenForm
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


def normalise(text: str) -> str:
    """Normalise a text: contractions are written out, signs and digits made plain, NFKC."""
    return _with_plain_digits(unicodedata.normalize("NFKC", _written_out(text))).strip()


def _with_plain_digits(text: str) -> str:
    """Give the text with the digits of other scripts as 0 to 9."""
    if text.isascii():
        return text
    return "".join(str(int(letter)) if letter.isdecimal() else letter for letter in text)


def tokenise(text: str) -> list[Token]:
    """Cut a normalised text into tokens; white space is dropped, line ends are kept."""
    found: list[Token] = []
    for match in _WORDS.finditer(text):
        form = TokenForm(str(match.lastgroup))
        found.extend(_split(Token(form, match.group().lower(), match.start(), match.end())))
    return found


def _split(word: Token) -> list[Token]:
    """Give "5fed" as a number and a word: only letters in order can be compartments."""
    if word.form is not TokenForm.GLUED:
        return [word]
    digits = word.text.rstrip("abcdefgh")
    letters = word.text[len(digits) :]
    if list(letters) == sorted(set(letters)):
        return [word]
    middle = word.start + len(digits)
    return [
        Token(TokenForm.NUMBER, digits, word.start, middle),
        Token(TokenForm.WORD, letters, middle, word.end),
    ]


def text_at(tokens: Sequence[Token], at: int) -> str:
    """Give the text of the token at ``at``, or nothing beyond either end."""
    return tokens[at].text if 0 <= at < len(tokens) else ""
