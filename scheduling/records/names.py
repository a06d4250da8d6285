"""Names of people, yards and zones: as written, and as compared."""

import unicodedata
from zoneinfo import ZoneInfo


def tidy(name: str) -> str:
    """Take surplus spaces out of a name.

    Raises:
        ValueError: nothing is left.
    """
    tidied = " ".join(unicodedata.normalize("NFC", name).split())
    if not tidied:
        raise ValueError("a name must have at least one letter")
    return tidied


def folded(name: str) -> str:
    """Put a name as it is compared: "River " and "river" are one."""
    return unicodedata.normalize("NFC", tidy(name).casefold())


def known_zone(name: str) -> str:
    """Check the name of a time zone, such as ``America/Chicago``, and give it back.

    Raises:
        ValueError: there is no such zone.
    """
    try:
        return ZoneInfo(name).key
    except (KeyError, ValueError, OSError):
        raise ValueError(f"{name!r} is not a time zone; write it like America/Chicago") from None
