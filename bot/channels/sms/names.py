"""The channel's name, and numbers as it writes them."""

import re

CHANNEL_NAME = "sms"
"""One name for every carrier of texts, so that people stay reached when the owner changes it."""

_NUMBER = re.compile(r"\+[1-9][0-9]{6,14}")


def is_number(address: str) -> bool:
    """Tell whether an address is a full international number (ITU-T E.164: + and to 15 digits)."""
    return _NUMBER.fullmatch(address) is not None
