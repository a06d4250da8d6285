"""How many segments a text takes, and where it is cut.

3GPP TS 23.040, clause 9.2.3.24: a message carries 140 octets, and a part of a longer one so much
less as its header takes; in the 7-bit alphabet a header is filled up to whole septets. So 160
septets or 70 UTF-16 units in one message, 153 or 67 in a part, and 152 or 66 in a part whose
reference has two octets.
"""

from collections.abc import Callable
from enum import Enum

from bot.channels.sms.alphabet import EXTENSION, is_gsm7, septets_of

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
