"""An e-mail that the mail server hands in: an answer, or a notice that one of ours failed."""

import hashlib
import re
from collections.abc import Iterator
from datetime import datetime
from email import message_from_bytes
from email.message import EmailMessage, Message
from email.policy import default
from html.parser import HTMLParser

from bot.channels.channel import IncomingMessage
from bot.channels.mail.mail_message import address_in, own_names
from bot.channels.reports import Delivery, DeliveryReport
from bot.channels.send_error import SendError
from bot.channels.traits import MAIL
from bot.program_log import log_of
from scheduling.plain_text import storable

log = log_of(__name__)

_JOINING = re.compile(r"\s*join\s+[A-Za-z0-9-]{4,20}\s*", re.IGNORECASE)
"""What a stranger may say: it carries its own secret, the code of an invitation."""

_BULK = frozenset({"bulk", "junk", "list"})


def read_mail(octets: bytes, key: str, now: datetime) -> IncomingMessage | DeliveryReport | None:
    """Read an e-mail; None for one that counts for nothing.

    That is one which answers no message of ours, a machine's, or one that cannot be read.

    Args:
        octets: the whole of it.
        key: the secret that answers are known by.
        now: aware UTC instant.
    """
    try:
        return _read(octets, key, now)
    except Exception as error:  # noqa: BLE001 - the library's reading of crooked mail raises anything
        log.info("left out an unreadable e-mail", error=type(error).__name__)
        return None


def _read(octets: bytes, key: str, now: datetime) -> IncomingMessage | DeliveryReport | None:
    mail = message_from_bytes(octets, policy=default)
    if not isinstance(mail, EmailMessage):
        return None
    if mail.get_content_type() == "multipart/report":
        return _failure(mail, key, now)
    sender = address_in(_header(mail, "From"))
    if sender is None or _by_a_machine(mail):
        return None
    text = words_of(mail)
    if not own_names(_referred_to(mail), sender, key) and not _JOINING.fullmatch(text):
        return None
    name = _header(mail, "Message-ID") or hashlib.sha256(octets).hexdigest()
    own = hashlib.sha256(f"{sender}\0{storable(name)}".encode()).hexdigest()[:32]
    return IncomingMessage(MAIL.name, sender, f"mail:{own}", text, now)


def _referred_to(mail: EmailMessage) -> Iterator[str]:
    yield _header(mail, "In-Reply-To")
    yield _header(mail, "References")


def _by_a_machine(mail: EmailMessage) -> bool:
    """Tell an answer from a holiday notice or a list (RFC 3834, 2 and 5)."""
    said = _header(mail, "Auto-Submitted").lower()
    return said not in ("", "no") or _header(mail, "Precedence").lower() in _BULK


def _header(mail: Message, name: str) -> str:
    return str(mail.get(name, "") or "").strip()


def _failure(mail: EmailMessage, key: str, now: datetime) -> DeliveryReport | None:
    """Read a delivery status notification (RFC 3464): whom it failed, and which message it was."""
    recipient, status = None, ""
    names: list[str] = []
    for part in mail.walk():
        recipient = recipient or _recipient(part)
        status = status or _header(part, "Status")
        names += [_header(part, "Message-ID"), _text_of(part)]
    own = own_names(names, recipient, key) if recipient else []
    if not own or not status.startswith(("4.", "5.")):
        return None
    gone = status.startswith("5.1.")
    send_error = SendError.NO_MAILBOX if gone else SendError.CARRIER_FAILED
    return DeliveryReport(MAIL.name, own[0], Delivery.FAILED, now, error=send_error)


def _recipient(part: Message) -> str | None:
    written = _header(part, "Original-Recipient") or _header(part, "Final-Recipient")
    return address_in(written.partition(";")[2].strip())


def _text_of(part: Message) -> str:
    """Give the returned head of our message, where it comes as text."""
    if part.get_content_type() != "text/rfc822-headers":
        return ""
    octets = part.get_payload(decode=True)
    return octets.decode("latin-1") if isinstance(octets, bytes) else ""


LONGEST = 10_000
"""Letters that are looked at."""

_ENDS = (
    re.compile(r"^>"),
    re.compile(r"^-- ?$"),
    re.compile(r"^_{5,}$"),
    re.compile(r"^-{2,} ?(Original|Forwarded) ", re.IGNORECASE),
    re.compile(r"^(On|Am|Le|El|Il|Op|Em|Den) .{5,200}(wrote|schrieb|a écrit|escribió|ha scritto|"
               r"schreef|escreveu|skrev)\b.*:?$", re.IGNORECASE),
    re.compile(r"^From: .+@", re.IGNORECASE),
    re.compile(r"^Sent from my ", re.IGNORECASE),
)  # fmt: skip
"""Lines from which on it is no longer the writer's own words: the quoted message, a signature."""


def words_of(mail: EmailMessage) -> str:
    """Give the writer's own words; empty if there are none."""
    body = mail.get_body(preferencelist=("plain", "html"))
    if body is None:
        return ""
    try:
        text = str(body.get_content())[: LONGEST * 4]
    except (LookupError, ValueError, KeyError):
        return ""
    if body.get_content_subtype() == "html":
        text = _without_tags(text)
    return _own(text)[:LONGEST]


def _own(text: str) -> str:
    kept: list[str] = []
    for line in text.splitlines():
        if any(end.search(line.strip()) for end in _ENDS):
            break
        kept.append(line.rstrip())
    return "\n".join(kept).strip()


class _Text(HTMLParser):
    """Collects words; a block begins a line, and a quotation is marked as one."""

    _BLOCKS = frozenset({"br", "p", "div", "tr", "li", "blockquote"})
    _HIDDEN = frozenset({"style", "script", "head", "title"})

    def __init__(self) -> None:
        super().__init__()
        self.said: list[str] = []
        self._hidden = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:  # noqa: ARG002
        """Begin a line at a block."""
        self._hidden += tag in self._HIDDEN
        if tag in self._BLOCKS:
            self.said.append("\n>" if tag == "blockquote" else "\n")

    def handle_endtag(self, tag: str) -> None:
        """Show what follows a hidden piece."""
        self._hidden -= tag in self._HIDDEN and self._hidden > 0

    def handle_data(self, data: str) -> None:
        """Keep words."""
        if not self._hidden:
            self.said.append(data.replace("\n", " "))


def _without_tags(markup: str) -> str:
    text = _Text()
    text.feed(markup)
    text.close()
    lines = (" ".join(line.split()) for line in "".join(text.said).split("\n"))
    return "\n".join(lines)
