"""The small protocol between a channel (console, Telegram, text messages, e-mail) and the rest."""

from collections.abc import Awaitable, Callable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from enum import StrEnum
from typing import TYPE_CHECKING, Protocol, runtime_checkable

from bot.channels.send_error import SendError
from bot.channels.traits import ChannelTraits

if TYPE_CHECKING:
    from starlette.routing import Route


@dataclass(frozen=True)
class IncomingMessage:
    """A message as a channel received it.

    Attributes:
        channel: the channel's name.
        address: where the sender is answered, in the channel's own form (a chat's number).
        id: the channel's id of this message; the same id again is the same message. A tapped
            button's id names the button's message and its text, so that two taps are one.
        text: what was written; for a button its typed equivalent.
        sent_at: aware UTC instant.
        sender: the name the channel shows for the sender, if any.
        corrects: the id of the earlier message that this one is an edit of.
        tap: for a tapped button, the carrier's id of the tap; another tap on it has another.
        replies_to: the carrier's id of the message that this one quotes, or under which the
            button was.
        album: the carrier's id of the album that the pictures of several messages belong to.
        in_group: nobody wrote it; the bot was added to a group.
    """

    channel: str
    address: str
    id: str
    text: str
    sent_at: datetime
    sender: str = ""
    corrects: str | None = None
    tap: str | None = None
    replies_to: str | None = None
    album: str | None = None
    in_group: bool = False


@dataclass(frozen=True)
class Button:
    """A label and the text that tapping it stands for (at most 64 bytes of UTF-8)."""

    label: str
    text: str


@dataclass(frozen=True)
class Document:
    """A file of text that is sent with a message, on channels that take files."""

    name: str
    text: str


@dataclass(frozen=True)
class OutgoingMessage:
    """A message to be sent: the words, and buttons for channels that have them.

    Attributes:
        address: where it goes.
        text: the words.
        buttons: rows of buttons under it.
        key: the same for every try of one message and of no other: what a carrier that takes an
            idempotency key is given, together with ``part``.
        part: how many parts of a text too long for one message have arrived already.
        document: a file that goes with the words.
        edits: the carrier's id of an earlier message whose place this one takes.
    """

    address: str
    text: str
    buttons: tuple[tuple[Button, ...], ...] = ()
    key: str = ""
    part: int = 0
    document: Document | None = None
    edits: str | None = None

    @property
    def once(self) -> str:
        """The idempotency key of the part that is to be sent now."""
        return f"{self.key}/{self.part}"


class ChannelBroken(Exception):  # noqa: N818 - it says what is so, not what went wrong
    """A channel that cannot work until a person mends its set-up; one line says what to mend."""


class SendResult(StrEnum):
    """How a send ended; ``unknown`` means that it may or may not have arrived."""

    SENT = "sent"
    LATER = "later"
    """Not sent; try again, not before ``SendOutcome.wait``."""
    REFUSED = "refused"
    """This message will never be taken (too long, malformed)."""
    UNREACHABLE = "unreachable"
    """This address will take no message any more (blocked, gone)."""
    UNKNOWN = "unknown"


@dataclass(frozen=True)
class SendOutcome:
    """The result of one send.

    Attributes:
        result: how it ended.
        carrier_id: the carrier's id of a sent message.
        said: the carrier's words on a failure.
        wait: how long the carrier asked us to wait.
        moved_to: the chat's new address.
        parts_left: how many parts of the message are still to be sent after this one.
        error: what kept it from arriving.
    """

    result: SendResult
    carrier_id: str | None = None
    said: str = ""
    wait: timedelta | None = None
    moved_to: str | None = None
    parts_left: int = 0
    error: SendError | None = None


Receive = Callable[[IncomingMessage], Awaitable[None]]
"""Stores the message durably before it returns; raises if it could not be stored."""


class Channel(Protocol):
    """A way for messages to travel."""

    @property
    def traits(self) -> ChannelTraits:
        """What is so of the channel, its name in the database first."""

    async def listen(self, receive: Receive) -> None:
        """Hand every message in to ``receive`` until cancelled.

        The carrier is told that a message was received only after ``receive`` returned.

        Raises:
            ChannelBroken: waiting will not help; the set-up must be mended.
        """

    async def send(self, outgoing: OutgoingMessage) -> SendOutcome:
        """Send one message, or of a long one the next part: the one after ``outgoing.part`` parts.

        Carrier errors come back as an outcome, never as an exception.
        """

    async def close(self) -> None:
        """Let go of connections."""


Clock = Callable[[], datetime]
"""Gives the present instant, aware, in UTC."""


def present() -> datetime:
    """Give the present instant."""
    return datetime.now(UTC)


@runtime_checkable
class WebChannel(Channel, Protocol):
    """A channel with addresses on our HTTP side; every worker listens on it at once."""

    def routes(self) -> "Sequence[Route]":
        """Give the addresses that the carrier posts to."""
