"""The GSM 7-bit alphabet: which letters it has, and their codes.

3GPP TS 23.038, clause 6.2.1: the default alphabet (table of 128 codes) and its extension table,
whose letters are an escape and a code. The same codes stand in unicode.org,
MAPPINGS/ETSI/GSM0338.TXT, where 0x09 is a small letter; here it is the capital C with cedilla, as
in the present standard.
"""

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
