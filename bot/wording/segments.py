"""How long a text is over SMS, and how to keep it in the cheap alphabet.

Alphabet and lengths: 3GPP TS 23.038 clause 6.2.1 (default alphabet and its extension table) and
TS 23.040 clause 9.2.3.24.1 (parts of a long message); clause numbers from memory.
"""

from collections.abc import Callable

from bot.wording.plain_letters import to_gsm7

__all__ = ["is_gsm7", "segments", "septets", "split", "to_gsm7"]

BASIC = frozenset(
    "@£$¥èéùìòÇ\nØø\rÅåΔ_ΦΓΛΩΠΨΣΘΞÆæßÉ !\"#¤%&'()*+,-./0123456789:;<=>?"
    "¡ABCDEFGHIJKLMNOPQRSTUVWXYZÄÖÑÜ§¿abcdefghijklmnopqrstuvwxyzäöñüà"
)
"""Characters of one septet."""

EXTENSION = frozenset("\f^{}\\[~]|€")
"""Characters of two septets: an escape and the character."""

_ALPHABET = BASIC | EXTENSION

GSM7_SINGLE, GSM7_PART = 160, 153
"""Septets in a message of one segment, and in each part of a longer one."""

UCS2_SINGLE, UCS2_PART = 70, 67
"""UTF-16 units likewise."""


def is_gsm7(text: str) -> bool:
    """Tell whether every character is in the default alphabet or its extension table."""
    return _ALPHABET.issuperset(text)


def septets(text: str) -> int:
    """Count the septets.

    Raises:
        ValueError: the text is not in the GSM 7-bit alphabet.

    """
    if not is_gsm7(text):
        raise ValueError("the text is not in the GSM 7-bit alphabet")
    return sum(_septets_of(letter) for letter in text)


def split(text: str) -> tuple[str, ...]:
    """Cut into the parts a carrier sends; an escaped character or surrogate pair stays whole."""
    if is_gsm7(text):
        if EXTENSION.isdisjoint(text):
            return _cut(text, GSM7_SINGLE, GSM7_PART)
        return _split(text, _septets_of, GSM7_SINGLE, GSM7_PART)
    return _split(text, _units_of, UCS2_SINGLE, UCS2_PART)


def segments(text: str) -> int:
    """Count the SMS segments the text takes; an empty text takes none."""
    return len(split(text))


def _septets_of(letter: str) -> int:
    return 2 if letter in EXTENSION else 1


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
    parts, used = [""], 0
    for letter in text:
        if used + size(letter) > part:
            parts.append("")
            used = 0
        parts[-1] += letter
        used += size(letter)
    return tuple(parts)
