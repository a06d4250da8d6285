"""The terminal as a phone: what is typed is a message in, answers are printed."""

import uuid
from collections.abc import Callable
from datetime import datetime

from bot.channels.channel import IncomingMessage, OutgoingMessage, Receive, SendOutcome, SendResult
from bot.channels.send_error import SendError
from bot.channels.traits import CONSOLE

NAME = CONSOLE.name


class ConsoleChannel:
    """Prints messages with their recipient's name before each line.

    Args:
        show: writes one line of text; ``print`` as a rule.
    """

    traits = CONSOLE

    def __init__(self, show: Callable[[str], None] = print) -> None:
        self._show = show

    async def listen(self, receive: Receive) -> None:
        """Nothing comes in by itself: the chat command hands in what is typed."""

    async def send(self, outgoing: OutgoingMessage) -> SendOutcome:
        """Print the message, each line behind a mark, and say whether anybody can read it."""
        try:
            self._print(outgoing)
        except OSError as error:
            return SendOutcome(SendResult.UNKNOWN, said=str(error), error=SendError.NO_CONNECTION)
        return SendOutcome(SendResult.SENT)

    def _print(self, outgoing: OutgoingMessage) -> None:
        first, *rest = outgoing.text.splitlines() or [""]
        self._show(f"{outgoing.address} < {first}")
        for line in rest:
            self._show(f"{' ' * len(outgoing.address)} < {line}")

    async def close(self) -> None:
        """Nothing to let go of."""


def typed(name: str, text: str, at: datetime) -> IncomingMessage:
    """What a person typed at the terminal at an instant, as a message in."""
    return IncomingMessage(NAME, name, uuid.uuid4().hex, text, at, sender=name)
