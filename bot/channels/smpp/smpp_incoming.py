"""What a deliver_sm says: a message, a part of one, or how one of ours fared.

Messages are given ids here too, so that one that the centre delivers again is told from the same
words said again.

SMPP v3.4: 5.2.12 (esm_class), 5.2.19 (data_coding), 5.2.28 (message_state), appendix B (the text of
a receipt, which every centre writes its own way).
"""

import hashlib
import re
from collections import OrderedDict
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from bot.channels.reports import Delivery, DeliveryReport
from bot.channels.send_error import SendError
from bot.channels.smpp.outgoing import HAS_HEADER
from bot.channels.sms.header import PartNumber, read_header
from bot.channels.sms.phone_number import international
from bot.channels.sms.segments import HeaderSize, decode
from bot.channels.traits import SMS

_MESSAGE_TYPE, _RECEIPT = 0x3C, 0x04

_STATES: Mapping[int, Delivery] = {
    1: Delivery.HANDED_OVER,  # en route
    2: Delivery.DELIVERED,
    3: Delivery.FAILED,  # expired
    4: Delivery.FAILED,  # deleted
    5: Delivery.FAILED,  # undeliverable
    6: Delivery.HANDED_OVER,  # accepted
    7: Delivery.HANDED_OVER,  # unknown
    8: Delivery.FAILED,  # rejected
}

_WORDS: Mapping[str, Delivery] = {
    "ENROUTE": Delivery.HANDED_OVER,
    "DELIVRD": Delivery.DELIVERED,
    "EXPIRED": Delivery.FAILED,
    "DELETED": Delivery.FAILED,
    "UNDELIV": Delivery.FAILED,
    "ACCEPTD": Delivery.HANDED_OVER,
    "UNKNOWN": Delivery.HANDED_OVER,
    "REJECTD": Delivery.FAILED,
}

_ID = re.compile(r"\bid:\s*(\S+)", re.IGNORECASE)
_STAT = re.compile(r"\bstat:\s*([A-Z]+)", re.IGNORECASE)

_CODECS: Mapping[int, str] = {0x01: "ascii", 0x03: "latin-1", 0x08: "utf-16-be"}


@dataclass(frozen=True)
class DeliveredText:
    """What somebody wrote, or a part of it.

    Attributes:
        sender: the number in full.
        octets: the words in UTF-16.
        part: which part of which message, or None for a whole one.
    """

    sender: str
    octets: bytes
    part: PartNumber | None


def read_delivery(
    packet: Any, region: str | None, now: datetime
) -> DeliveredText | DeliveryReport | None:
    """Read a deliver_sm; None for what is of nobody that can be answered, or says nothing sound."""
    octets = packet.short_message or packet.message_payload or b""
    kind = packet.esm_class or 0
    if kind & _MESSAGE_TYPE == _RECEIPT:
        return _receipt(packet, octets.decode("latin-1"), now)
    sender = _sender(packet, region)
    if sender is None:
        return None
    part, words = read_header(octets) if kind & HAS_HEADER else (_numbered_apart(packet), octets)
    if part is not None and part.total == 1:
        part = None
    return DeliveredText(sender, _utf16(words, packet.data_coding or 0), part)


def _sender(packet: Any, region: str | None) -> str | None:
    written = (packet.source_addr or b"").decode("latin-1")
    known = packet.source_addr_ton == 1 and not written.startswith("+")
    return international(f"+{written}" if known else written, region)


def _utf16(words: bytes, coding: int) -> bytes:
    codec = _CODECS.get(coding)
    if codec == "utf-16-be":
        return words
    text = decode(words) if codec is None else words.decode(codec, errors="replace")
    return text.encode("utf-16-be")


def _numbered_apart(packet: Any) -> PartNumber | None:
    """Read a part's number from the optional fields that some centres use in place of a header."""
    reference, total = packet.sar_msg_ref_num, packet.sar_total_segments
    try:
        return PartNumber(reference, total, packet.sar_segment_seqnum, HeaderSize.WIDE)
    except (TypeError, ValueError):
        return None


def _receipt(packet: Any, text: str, now: datetime) -> DeliveryReport | None:
    own, stat = _ID.search(text), _STAT.search(text)
    said = (packet.receipted_message_id or b"").decode("latin-1").rstrip("\0")
    carrier_id = said or (own[1] if own else "")
    delivery = _STATES.get(packet.message_state or 0) or _WORDS.get(stat[1].upper() if stat else "")
    if not carrier_id or delivery is None:
        return None
    send_error = SendError.CARRIER_FAILED if delivery is Delivery.FAILED else None
    return DeliveryReport(SMS.name, carrier_id, delivery, now, error=send_error)


AGAIN_WITHIN = timedelta(minutes=2)
"""A centre that missed our answer delivers again within a minute or so (from memory)."""

PROMPT = timedelta(seconds=5)
"""An answer within this reached the centre, if the line held (common practice, no source)."""


@dataclass
class _Given:
    own: str
    at: datetime
    line: int
    answered_at: datetime | None = None

    def may_come_again(self, line: int) -> bool:
        """Say whether the centre may have missed our answer."""
        if self.answered_at is None or line != self.line:
            return True
        return self.answered_at - self.at > PROMPT


class Repeats:
    """Gives messages ids, since the protocol gives them none.

    The same words of the same sender within two minutes are one message where the centre may have
    missed our answer: none was given yet, it took long, or the line broke since. Over a line that
    held they were said twice, as "more" and "more".
    """

    def __init__(self) -> None:
        self._given: OrderedDict[str, _Given] = OrderedDict()
        self._count = 0

    def id_of(self, sender: str, octets: bytes, line: int, now: datetime) -> str:
        """Name a message that came over a line; lines are numbered as they were opened."""
        while self._given and now - next(iter(self._given.values())).at > AGAIN_WITHIN:
            self._given.popitem(last=False)
        words = hashlib.sha256(sender.encode() + b"\0" + octets).hexdigest()[:32]
        before = self._given.get(words)
        if before is not None and before.may_come_again(line):
            return before.own
        self._count += 1
        own = f"smpp:{words}:{int(now.timestamp())}:{self._count}"
        self._given[words] = _Given(own, now, line)
        self._given.move_to_end(words)
        return own

    def answered(self, own: str, now: datetime) -> None:
        """Write down that the centre is answered well now."""
        given = next((each for each in self._given.values() if each.own == own), None)
        if given is not None and given.answered_at is None:
            given.answered_at = now
