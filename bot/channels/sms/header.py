"""The header that numbers the parts of a long message.

3GPP TS 23.040: clause 9.2.3.24 (user data header), 9.2.3.24.1 (8-bit reference, element 00) and
9.2.3.24.8 (16-bit reference, element 08).
"""

import struct
from collections.abc import Iterator
from dataclasses import dataclass

from bot.channels.sms.segments import HeaderSize

_NARROW, _WIDE = 0x00, 0x08

_FORMS = {_NARROW: (">BBB", HeaderSize.NARROW), _WIDE: (">HBB", HeaderSize.WIDE)}
"""How the value of each element is laid out."""


@dataclass(frozen=True)
class PartNumber:
    """Which part of which message.

    Attributes:
        reference: the same in all parts of one message of one sender; 0 to 255, or to 65,535.
        total: how many parts the message has, 1 to 255.
        number: which one this is, from 1.
        size: whether the reference takes one octet or two.
    """

    reference: int
    total: int
    number: int
    size: HeaderSize = HeaderSize.NARROW

    def __post_init__(self) -> None:
        """Refuse what no header can say.

        Raises:
            ValueError: a number is out of its range.
        """
        most = 0xFF if self.size is HeaderSize.NARROW else 0xFFFF
        if not (0 <= self.reference <= most and 1 <= self.number <= self.total <= 0xFF):
            raise ValueError(f"no part {self.number} of {self.total} under {self.reference}")


def write_header(part: PartNumber) -> bytes:
    """Write the header, its length before it."""
    if part.size is HeaderSize.NARROW:
        return bytes([5, _NARROW, 3, part.reference, part.total, part.number])
    return struct.pack(">BBBHBB", 6, _WIDE, 4, part.reference, part.total, part.number)


def read_header(user_data: bytes) -> tuple[PartNumber | None, bytes]:
    """Take the header off octets that begin with one.

    Gives the part's number, if an element says it soundly, and the octets behind the header.
    A header longer than the message, or elements that do not fit in it, are passed over, and so
    is a part numbered 0 or beyond its total: the standard has such an element ignored.
    """
    length = user_data[0] if user_data else 0
    if length >= len(user_data):
        return None, b""
    found = None
    for element, value in _elements(user_data[1 : 1 + length]):
        found = _part_number(element, value) or found
    return found, user_data[1 + length :]


def _elements(header: bytes) -> Iterator[tuple[int, bytes]]:
    while len(header) >= 2:
        element, size = header[0], header[1]
        if len(header) < 2 + size:
            return
        yield element, header[2 : 2 + size]
        header = header[2 + size :]


def _part_number(element: int, value: bytes) -> PartNumber | None:
    try:
        reference, total, number = struct.unpack(_FORMS[element][0], value)
        return PartNumber(reference, total, number, _FORMS[element][1])
    except (KeyError, ValueError, struct.error):
        return None
