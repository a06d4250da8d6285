"""The GSM 7-bit alphabet, how many segments a text takes, and where it is cut.

Alphabet: 3GPP TS 23.038, clause 6.2.1: the default alphabet (table of 128 codes) and its extension
table, whose letters are an escape and a code. The same codes stand in unicode.org,
MAPPINGS/ETSI/GSM0338.TXT, where 0x09 is a small letter; here it is the capital C with cedilla, as
in the present standard.

Segments: 3GPP TS 23.040, clause 9.2.3.24: a message carries 140 octets, and a part of a longer one
so much less as its header takes; in the 7-bit alphabet a header is filled up to whole septets. So
160 septets or 70 UTF-16 units in one message, 153 or 67 in a part, and 152 or 66 in a part whose
reference has two octets.
"""

from collections.abc import Callable
from enum import Enum

ESCAPE = 0x1B
"""Says that the next code is of the extension table."""

_ROWS = (
    "@£$¥èéùìòÇ\nØø\rÅå",
    "Δ_ΦΓΛΩΠΨΣΘΞ\x1bÆæßÉ",
    " !\"#¤%&'()*+,-./",
    "0123456789:;<=>?",
    "¡ABCDEFGHIJKLMNO",
    "PQRSTUVWXYZÄÖÑÜ§",
    "¿abcdefghijklmno",
    "pqrstuvwxyzäöñüà",
)
"""Sixteen codes a row, as the standard prints them in columns."""

_DEFAULT = "".join(_ROWS)

_EXTENDED = {
    0x0A: "\f",
    0x14: "^",
    0x28: "{",
    0x29: "}",
    0x2F: "\\",
    0x3C: "[",
    0x3D: "~",
    0x3E: "]",
    0x40: "|",
    0x65: "€",
}

BASIC = frozenset(_DEFAULT) - {"\x1b"}
"""Letters of one septet."""

EXTENSION = frozenset(_EXTENDED.values())
"""Letters of two septets: an escape and a code."""

_CODES = {letter: bytes([code]) for code, letter in enumerate(_DEFAULT) if code != ESCAPE} | {
    letter: bytes([ESCAPE, code]) for code, letter in _EXTENDED.items()
}
_LETTERS = frozenset(_CODES)


def is_gsm7(text: str) -> bool:
    """Tell whether every letter is in the default alphabet or its extension table."""
    return _LETTERS.issuperset(text)


def septets(text: str) -> int:
    """Count the septets.

    Raises:
        ValueError: the text is not in the GSM 7-bit alphabet.
    """
    return len(encode(text))


def septets_of(letter: str) -> int:
    """Count the septets of one letter of the alphabet: 1, or 2 with an escape."""
    return 2 if letter in EXTENSION else 1


def encode(text: str) -> bytes:
    """Give the codes of a text, one septet in each byte.

    Raises:
        ValueError: the text is not in the GSM 7-bit alphabet.
    """
    if not is_gsm7(text):
        raise ValueError("the text is not in the GSM 7-bit alphabet")
    return b"".join(_CODES[letter] for letter in text)


def decode(codes: bytes) -> str:
    """Give the text of codes, one septet in each byte; the highest bit is passed over.

    A code that the extension table does not have stands for the default alphabet's letter, and an
    escape of an escape, or one at the end, for a space (TS 23.038, notes to the two tables).
    """
    text, escaped = [], False
    for code in (byte & 0x7F for byte in codes):
        if escaped:
            text.append(" " if code == ESCAPE else _EXTENDED.get(code, _DEFAULT[code]))
            escaped = False
        elif code == ESCAPE:
            escaped = True
        else:
            text.append(_DEFAULT[code])
    return "".join([*text, " "] if escaped else text)


OCTETS = 140
"""What one message carries."""


class HeaderSize(Enum):
    """The octets of a header that numbers the parts, by the octets of its reference."""

    NARROW = 6
    """One octet of reference: what phones and carriers write."""
    WIDE = 7
    """Two octets of reference."""


def split(text: str, header: HeaderSize = HeaderSize.NARROW) -> tuple[str, ...]:
    """Cut into the parts a carrier sends; an escaped letter or surrogate pair stays whole.

    An empty text gives no part.
    """
    left = OCTETS - header.value
    if is_gsm7(text):
        if EXTENSION.isdisjoint(text):
            return _cut(text, OCTETS * 8 // 7, left * 8 // 7)
        return _split(text, septets_of, OCTETS * 8 // 7, left * 8 // 7)
    return _split(text, _units_of, OCTETS // 2, left // 2)


def segments(text: str) -> int:
    """Count the SMS segments the text takes; an empty text takes none."""
    return len(split(text))


def fits(text: str, most: int) -> bool:
    """Tell whether the text takes at most so many segments.

    Sooner than to count them where it is far too long: no segment has more than 160 letters.
    """
    return len(text) <= most * OCTETS * 8 // 7 and segments(text) <= most


def _units_of(letter: str) -> int:
    return 2 if ord(letter) > 0xFFFF else 1


def _cut(text: str, single: int, part: int) -> tuple[str, ...]:
    """Cut a text of which every letter has the same size."""
    if len(text) <= single:
        return (text,) if text else ()
    return tuple(text[start : start + part] for start in range(0, len(text), part))


def _split(text: str, size: Callable[[str], int], single: int, part: int) -> tuple[str, ...]:
    if sum(map(size, text)) <= single:
        return (text,) if text else ()
    parts, begin, used = [], 0, 0
    for index, letter in enumerate(text):
        if used + size(letter) > part:
            parts.append(text[begin:index])
            begin, used = index, 0
        used += size(letter)
    return (*parts, text[begin:])
