"""The channel's name, and addresses as it writes them."""

import re
from email.utils import parseaddr

CHANNEL_NAME = "mail"

_ADDRESS = re.compile(r"[A-Za-z0-9!#$%&'*+/=?^_`{|}~.-]{1,64}@[A-Za-z0-9-]+(\.[A-Za-z0-9-]+)+")


def address_in(written: str) -> str | None:
    """Give the address in a header's words ("Ada <ada@yards.example>"), in small letters."""
    address = parseaddr(written)[1]
    return address.lower() if is_address(address) else None


def is_address(address: str) -> bool:
    """Tell whether it is one plain address (RFC 5321, 4.1.2, without quoted names)."""
    return len(address) <= 254 and _ADDRESS.fullmatch(address) is not None
