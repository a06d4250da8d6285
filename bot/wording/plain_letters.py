"""Typed letters made plain enough for the GSM 7-bit alphabet."""

import re
import unicodedata

_DASHES = dict.fromkeys(map(ord, "\u2010\u2011\u2012\u2013\u2014\u2015\u2212\u2022\u00b7"), "-")
_SINGLE_QUOTES = dict.fromkeys(map(ord, "\u2018\u2019\u201a\u201b\u2032\u00b4`"), "'")
_DOUBLE_QUOTES = dict.fromkeys(map(ord, "\u201c\u201d\u201e\u201f\u2033\u00ab\u00bb"), '"')
_SPACES = dict.fromkeys(map(ord, "\u00a0\u2007\u2009\u200a\u202f\t"), " ")
_NOTHING = dict.fromkeys(map(ord, "\u200b\u200c\u200d\u2060\ufeff\ufe0f\u00ad"), "")
_SIGNS = str.maketrans(
    {
        "\u2026": "...",
        "\u2044": "/",
        "\u00d7": "x",
        "\u00f7": "/",
        "\u00b1": "+/-",
        "\u00b0": " deg",
    }
    | {
        "\u2264": "<=",
        "\u2265": ">=",
        "\u2260": "not =",
        "\u2248": "~",
        "\u2192": "->",
        "\u2190": "<-",
    }
    | {"\u00b5": "u", "\u03bc": "u", "\u00a2": "c", "\u00a9": "(c)", "\u00ae": "(r)", "\u0131": "i"}
)
_STRUCK = str.maketrans(
    {"ł": "l", "Ł": "L", "đ": "d", "Đ": "D", "œ": "oe", "Œ": "OE", "þ": "th", "ð": "d"}
)

_PLAIN = _STRUCK | _DASHES | _SINGLE_QUOTES | _DOUBLE_QUOTES | _SPACES | _NOTHING | _SIGNS

_OF_TWO = (
    (re.compile(r"\u2103"), "\u00b0C"),
    (re.compile(r"\u2109"), "\u00b0F"),
    (re.compile(r"(?<=\d)[ \u00a0\u202f]?[\u00b0\u00ba] ?([CF])\b"), r" \1"),
    (re.compile(r"[ \u00a0\u202f]?\u00b0"), "\u00b0"),
    (re.compile(r"(?<=\d)\u00b7(?=\d)"), "."),
    (re.compile(r"(?<=\d)(?=[\u00bc-\u00be\u2150-\u215e])"), " "),
    (re.compile(r"(?<=\d)(?=[\u00b2\u00b3\u00b9\u2070-\u2079])"), "^"),
)
"""Letters whose plain form hangs on the one before: two and a half is not 21/2."""

_KEPT = frozenset("èéùìòÇØøÅåÆæßÉÄÖÑÜäöñüà£¥§¿¡¤€")
"""Letters beyond ASCII that the alphabet has; they stay as they are."""


def to_gsm7(text: str) -> str:
    """Make quotes, dashes, spaces, fractions, signs and accents plain; the meaning stays.

    Accented letters that the alphabet has are kept. What has no plain form (Greek, Cyrillic,
    pictures) is left unchanged, so that no word of a keeper's own is lost.
    """
    if text.isascii() and "`" not in text and "\t" not in text:
        return text
    composed = unicodedata.normalize("NFC", text)
    for letters, plain in _OF_TWO:
        composed = letters.sub(plain, composed)
    return "".join(_plain(letter) for letter in composed)


def _plain(letter: str) -> str:
    if letter.isascii() and letter not in "`\t":
        return letter
    if letter in _KEPT:
        return letter
    swapped = letter.translate(_PLAIN)
    return swapped if swapped != letter else _without_accent(letter)


def _without_accent(letter: str) -> str:
    apart = unicodedata.normalize("NFKD", letter).translate(_PLAIN)
    bare = "".join(mark for mark in apart if not unicodedata.combining(mark))
    return bare if bare and bare.isascii() else letter
