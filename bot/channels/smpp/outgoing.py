"""A message as the packets that carry it, and what their refusals mean.

SMPP v3.4: 5.2.12 (esm_class), 5.2.19 (data_coding), 5.1.3 (command_status). Each part has a header
of its own and is cut by us: smpplib's own cut parts an escaped letter, and its table lacks letters.
"""

from collections.abc import Iterator, Mapping
from typing import Any
from zlib import crc32

from bot.channels.channel import OutgoingMessage
from bot.channels.send_error import SendError
from bot.channels.sms.header import PartNumber, write_header
from bot.channels.sms.segments import encode, is_gsm7, split

HAS_HEADER = 0x40
"""esm_class: the words begin with a user data header."""

GSM7, UCS2 = 0x00, 0x08
"""data_coding: the centre's default, which is taken to be the GSM alphabet, one septet an octet;
and UTF-16."""

MOST_PARTS = 255

_INTERNATIONAL, _UNKNOWN, _ALPHANUMERIC = 1, 0, 5
_TELEPHONE = 1

ERRORS_BY_STATUS: Mapping[int, SendError] = {
    0x01: SendError.REFUSED,  # length
    0x0A: SendError.REFUSED,  # our own address
    0x0B: SendError.NO_SUCH_NUMBER,  # the address it goes to
    0x14: SendError.FLOOD,  # queue full
    0x58: SendError.FLOOD,  # throttled
    0x08: SendError.CARRIER_FAILED,  # system error
    0x45: SendError.CARRIER_FAILED,  # submit failed
    0x04: SendError.CARRIER_FAILED,  # not bound any more
    0x0D: SendError.TOKEN_REFUSED,  # bind failed
    0x0E: SendError.TOKEN_REFUSED,  # password
    0x0F: SendError.TOKEN_REFUSED,  # login
}


def packets(outgoing: OutgoingMessage, sender: str) -> Iterator[dict[str, Any]]:
    """Give the fields of each submit_sm that a message takes, in order.

    Raises:
        ValueError: it takes more parts than can be numbered.
    """
    parts = split(outgoing.text)
    if len(parts) > MOST_PARTS:
        raise ValueError(f"{len(parts)} parts are more than can be numbered")
    plain = is_gsm7(outgoing.text)
    reference = crc32(outgoing.once.encode()) & 0xFF
    for number, part in enumerate(parts, start=1):
        words = encode(part) if plain else part.encode("utf-16-be")
        numbered = PartNumber(reference, len(parts), number)
        header = write_header(numbered) if len(parts) > 1 else b""
        yield {
            **_address("source", sender),
            **_address("dest", outgoing.address),
            "esm_class": HAS_HEADER if header else 0,
            "data_coding": GSM7 if plain else UCS2,
            "registered_delivery": 1,
            "short_message": header + words,
        }


def _address(whose: str, address: str) -> dict[str, Any]:
    """Say an address and of what type it is (5.2.5, 5.2.6)."""
    kind, plan = _UNKNOWN, _TELEPHONE
    if address.startswith("+"):
        kind = _INTERNATIONAL
    elif not address.isdigit():
        kind, plan = _ALPHANUMERIC, 0
    name = "source_addr" if whose == "source" else "destination_addr"
    bare = address.removeprefix("+")
    return {name: bare, f"{whose}_addr_ton": kind, f"{whose}_addr_npi": plan}


def error_of_status(status: int) -> SendError:
    """Find a refusal's place in the closed list."""
    return ERRORS_BY_STATUS.get(status, SendError.REFUSED)
