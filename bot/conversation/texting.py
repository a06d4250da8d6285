"""Whether this program can send text messages, and how people here write their numbers.

The library of numbers is loaded where one is read, since most run without texts.
"""

from dataclasses import dataclass

from bot.channels.sms.phone_number import international


@dataclass(frozen=True)
class Texting:
    """What the conversation knows of text messages.

    Attributes:
        running: a carrier of texts is set up.
        region: the land (ISO 3166) whose numbers are written without a +; None for none.

    """

    running: bool = False
    region: str | None = None

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
