"""A message as an e-mail, with an id that only we can make, handed to the mail server.

An answer that names such an id comes from whom we wrote to. A sender's address can be forged by
anybody; the id of each e-mail of ours holds a signature of the message and its recipient, mail
programs repeat it in their answers (RFC 5322, 3.6.4: In-Reply-To and References), and nobody else
has seen it.

The server's answers: RFC 5321, 4.2 (4yz passes, 5yz does not) and 4.2.3 (550, 551, 553 of an
address).
"""

import hashlib
import hmac
import re
import smtplib
import ssl
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import datetime
from email.message import EmailMessage
from email.policy import SMTP
from email.utils import format_datetime, parseaddr
from enum import StrEnum

from bot.channels.channel import OutgoingMessage, SendOutcome, SendResult
from bot.channels.outcome import failed
from bot.channels.send_error import SendError

_ADDRESS = re.compile(r"[A-Za-z0-9!#$%&'*+/=?^_`{|}~.-]{1,64}@[A-Za-z0-9-]+(\.[A-Za-z0-9-]+)+")


def address_in(written: str) -> str | None:
    """Give the address in a header's words ("Ada <ada@yards.example>"), in small letters."""
    address = parseaddr(written)[1]
    return address.lower() if is_address(address) else None


def is_address(address: str) -> bool:
    """Tell whether it is one plain address (RFC 5321, 4.1.2, without quoted names)."""
    return len(address) <= 254 and _ADDRESS.fullmatch(address) is not None


class Security(StrEnum):
    """How the line to the mail server is encrypted."""

    TLS = "tls"
    """From the first octet on, as a rule at port 465."""
    STARTTLS = "starttls"
    """After a greeting, as a rule at port 587."""
    NONE = "none"
    """Not at all: for a server on this machine."""


@dataclass(frozen=True)
class MailAccount:
    """A mail server that takes our messages, and where answers are handed in.

    Attributes:
        host: the server that sends.
        port: its port.
        sender: our address.
        key: the secret that answers are known by; any long random words.
        login: the name at the server; empty where it asks for none.
        password: its password.
        security: how the line is encrypted.
        listen: host and port where the mail server hands answers in over LMTP, or None: then
            mornings go out by e-mail, and nobody can answer them by it.
    """

    host: str
    port: int
    sender: str
    key: str = field(repr=False)
    login: str = ""
    password: str = field(default="", repr=False)
    security: Security = Security.STARTTLS
    listen: tuple[str, int] | None = None


_OURS = re.compile(r"<([0-9a-f]{24})\.([0-9a-f]{32})@[^<>\s]+>")


def make_message_id(own: str, recipient: str, sender: str, key: str) -> str:
    """Make the id of a message.

    Args:
        own: our name of the message, 24 hexadecimal digits.
        recipient: the address it goes to.
        sender: our address.
        key: the secret.
    """
    return f"<{own}.{_signature(own, recipient, key)}@{sender.rpartition('@')[2]}>"


def own_names(written: Iterable[str], recipient: str, key: str) -> list[str]:
    """Give our names of the messages to this address whose ids stand in the words."""
    found = [pair for words in written for pair in _OURS.findall(words)]
    return [
        own for own, said in found if hmac.compare_digest(said, _signature(own, recipient, key))
    ]


def _signature(own: str, recipient: str, key: str) -> str:
    what = f"{own}\0{recipient.lower()}".encode()
    return hmac.new(key.encode(), what, hashlib.sha256).hexdigest()[:32]


LONGEST_SUBJECT = 60


def compose_mail(outgoing: OutgoingMessage, account: MailAccount, now: datetime) -> EmailMessage:
    """Write an e-mail: the first line is its subject too, and every try bears the same id.

    It says that a program sent it, so that no other program answers (RFC 3834, 5).
    """
    mail = EmailMessage(policy=SMTP)
    mail["From"] = f"Yardbell <{account.sender}>"
    mail["To"] = outgoing.address
    mail["Subject"] = _subject(outgoing.text)
    mail["Date"] = format_datetime(now)
    own = own_name(outgoing)
    mail["Message-ID"] = make_message_id(own, outgoing.address, account.sender, account.key)
    mail["Auto-Submitted"] = "auto-generated"
    mail.set_content(outgoing.text)
    if outgoing.document is not None:
        octets, name = outgoing.document.text.encode(), outgoing.document.name
        mail.add_attachment(octets, maintype="application", subtype="json", filename=name)
    return mail


def own_name(outgoing: OutgoingMessage) -> str:
    """Name a message: alike for every try of it, and for no other."""
    what = "\0".join([outgoing.once, outgoing.address, outgoing.text])
    return hashlib.sha256(what.encode()).hexdigest()[:24]


def _subject(text: str) -> str:
    lines = text.strip().splitlines()
    return " ".join(lines[0].split())[:LONGEST_SUBJECT] if lines else ""


_NO_MAILBOX = frozenset({550, 551, 553})


def hand_over(mail: EmailMessage, account: MailAccount, own: str, seconds: float) -> SendOutcome:
    """Hand one e-mail to the server; waits ``seconds`` for each of its answers."""
    try:
        server = _connect(account, seconds)
    except smtplib.SMTPAuthenticationError as error:
        return failed(SendError.TOKEN_REFUSED, f"{error.smtp_code}")
    except smtplib.SMTPResponseException as error:
        return failed(SendError.CARRIER_FAILED, f"{error.smtp_code}")
    except (OSError, smtplib.SMTPException) as error:
        return failed(SendError.NO_CONNECTION, type(error).__name__)
    try:
        server.send_message(mail)
    except smtplib.SMTPRecipientsRefused as error:
        (code, said) = next(iter(error.recipients.values()))
        return failed(_of_recipient(code), _words(code, said))
    except smtplib.SMTPResponseException as error:
        refused = SendError.CARRIER_FAILED if error.smtp_code < 500 else SendError.REFUSED
        return failed(refused, _words(error.smtp_code, error.smtp_error))
    except (OSError, smtplib.SMTPException) as error:
        return failed(SendError.NO_ANSWER, type(error).__name__)
    finally:
        server.close()
    return SendOutcome(SendResult.SENT, carrier_id=own)


def _connect(account: MailAccount, seconds: float) -> smtplib.SMTP:
    if account.security is Security.TLS:
        context = ssl.create_default_context()
        server: smtplib.SMTP = smtplib.SMTP_SSL(
            account.host, account.port, timeout=seconds, context=context
        )
    else:
        server = smtplib.SMTP(account.host, account.port, timeout=seconds)
    try:
        if account.security is Security.STARTTLS:
            server.starttls(context=ssl.create_default_context())
        if account.login:
            server.login(account.login, account.password)
    except BaseException:
        server.close()
        raise
    return server


def _of_recipient(code: int) -> SendError:
    if code in _NO_MAILBOX:
        return SendError.NO_MAILBOX
    return SendError.CARRIER_FAILED if code < 500 else SendError.REFUSED


def _words(code: int, said: bytes | str) -> str:
    words = said.decode("utf-8", errors="replace") if isinstance(said, bytes) else said
    return f"{code} {words}"
