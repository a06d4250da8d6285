"""A text with what did not fit, and the buttons under it."""

from dataclasses import dataclass

from bot.channels.channel import Button, OutgoingMessage


@dataclass(frozen=True)
class Message:
    """What is sent now (``parts[0]``) and what ``more`` gives, in order.

    ``buttons`` belong under the first part; everything they do can be typed. ``once`` is for
    what must not be sent again when nobody knows whether it arrived.
    """

    parts: tuple[str, ...]
    buttons: tuple[tuple[Button, ...], ...] = ()
    once: bool = False

    @property
    def text(self) -> str:
        """What is sent now."""
        return self.parts[0]

    def letter(self, address: str) -> OutgoingMessage:
        """Address the first part, with its buttons."""
        return OutgoingMessage(address, self.text, self.buttons)
