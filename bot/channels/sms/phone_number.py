"""Phone numbers, as the channel of text messages writes them."""

import re

_NUMBER = re.compile(r"\+[1-9][0-9]{6,14}")


def is_number(address: str) -> bool:
    """Tell whether an address is a full international number (ITU-T E.164: + and to 15 digits)."""
    return _NUMBER.fullmatch(address) is not None


def international(written: str, region: str | None = None) -> str | None:
    """Read a number as people and carriers write it; None if it is none that can be answered.

    Args:
        written: with or without + and marks between the digits.
        region: the land (ISO 3166, "US") that a number without + is of; None for no land.

    """
    if is_number(written):
        return written
    # Loaded only here, since most run without texts.
    import phonenumbers

    try:
        number = phonenumbers.parse(written, region)
    except phonenumbers.NumberParseException:
        return None
    if not phonenumbers.is_possible_number(number):
        return None
    read = phonenumbers.format_number(number, phonenumbers.PhoneNumberFormat.E164)
    return read if is_number(read) else None
