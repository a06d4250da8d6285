"""A channel that its carrier speaks to over HTTP."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Protocol, runtime_checkable

from bot.channels.channel import Channel

if TYPE_CHECKING:
    from starlette.routing import Route


@runtime_checkable
class WebChannel(Channel, Protocol):
    """A channel with addresses on our HTTP side; every worker listens on it at once."""

    def routes(self) -> "Sequence[Route]":
        """Give the addresses that the carrier posts to."""
