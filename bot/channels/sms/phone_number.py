"""Phone numbers: as the channel of text messages writes them, and as people do."""

import re
from dataclasses import dataclass
from enum import StrEnum

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


class NumberFault(StrEnum):
    """Why a number that can be read is not one to ask."""

    NO_LAND = "no land is set whose numbers are asked"
    OTHER_LAND = "it is of another land"
    NO_MOBILE = "it cannot be a mobile phone's"


@dataclass(frozen=True)
class Texting:
    """What the conversation knows of text messages.

    Attributes:
        running: a carrier of texts is set up.
        region: the land (ISO 3166) whose numbers are written without a +; None for none.
        lands: those whose numbers may be asked; none for that of ``region``.
        daily_invites: how many numbers may be asked within a day, by all crews together.
        crew_daily_invites: how many of them one crew may ask.
    """

    running: bool = False
    region: str | None = None
    lands: tuple[str, ...] = ()
    daily_invites: int = 20
    crew_daily_invites: int = 5

    @property
    def asked_lands(self) -> tuple[str, ...]:
        """Those whose numbers may be asked."""
        return self.lands or (() if self.region is None else (self.region,))

    def fault_of(self, number: str) -> NumberFault | None:
        """Say why nobody at a number may be asked; None if it may be a mobile phone's here.

        Premium, satellite, shared-cost and toll-free numbers are no mobile phones, whatever land
        they are of; where a land's numbers do not tell (as in North America), any line may be one.
        """
        import phonenumbers
        from phonenumbers import PhoneNumberType

        if not self.asked_lands:
            return NumberFault.NO_LAND
        parsed = phonenumbers.parse(number)
        mobile = (PhoneNumberType.MOBILE, PhoneNumberType.FIXED_LINE_OR_MOBILE)
        if phonenumbers.number_type(parsed) not in mobile:
            return NumberFault.NO_MOBILE
        of = phonenumbers.region_code_for_number(parsed)
        return None if of in self.asked_lands else NumberFault.OTHER_LAND

    def answers_strangers_at(self, number: str) -> bool:
        """Tell whether a number that is nobody's is answered: not one that nobody may be asked at.

        Where no land is set every number is.
        """
        return not self.asked_lands or (is_number(number) and self.fault_of(number) is None)

    def number(self, written: str, like: str | None = None) -> str | None:
        """Read a number in national or full form; None if it is none.

        Args:
            written: as somebody typed it.
            like: the full number of who typed it, whose land serves where none is set.
        """
        import phonenumbers

        found = international(written, self.region or _land(like))
        if found is None or not phonenumbers.is_valid_number(phonenumbers.parse(found)):
            return None
        return found


def example_of(region: str | None) -> str:
    """A number in full, of the land or of none in particular, to show how it is written."""
    import phonenumbers

    shown = None if region is None else phonenumbers.example_number(region)
    if shown is None:
        return "+1 202 555 0123"
    return phonenumbers.format_number(shown, phonenumbers.PhoneNumberFormat.INTERNATIONAL)


def _land(number: str | None) -> str | None:
    if number is None:
        return None
    import phonenumbers

    return phonenumbers.region_code_for_number(phonenumbers.parse(number))
