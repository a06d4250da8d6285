"""What the owner sets for e-mail, and addresses as the channel writes them."""

import re
from dataclasses import dataclass, field
from email.utils import parseaddr
from enum import StrEnum

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
