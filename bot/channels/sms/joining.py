"""Joining the parts of a long message, in whatever order they come."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta

from bot.channels.sms.header import PartNumber
from bot.channels.sms.segments import HeaderSize

WAIT = timedelta(minutes=10)
"""How long the other parts are waited for; a phone sends them within seconds."""


@dataclass(frozen=True)
class Whole:
    """Which long message a part is of: its sender, reference and number of parts."""

    sender: str
    reference: int
    total: int
    size: HeaderSize = HeaderSize.NARROW


def whole_of(sender: str, part: PartNumber) -> Whole:
    """Name the message that a part is of."""
    return Whole(sender, part.reference, part.total, part.size)


def joined(whole: Whole, parts: Mapping[int, bytes]) -> bytes | None:
    """Give the octets of a long message once all its parts are there, by their numbers.

    Octets and not words are joined, since some phones cut a letter in two between parts.
    """
    wanted = range(1, whole.total + 1)
    if any(number not in parts for number in wanted):
        return None
    return b"".join(parts[number] for number in wanted)


def given_up(first_at: datetime, now: datetime) -> bool:
    """Tell whether the missing parts are waited for no longer."""
    return now - first_at >= WAIT
