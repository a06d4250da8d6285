"""Ways in which the Bot API stand-in can be told to misbehave, one call at a time."""

from dataclasses import dataclass
from enum import Enum


class Drop(Enum):
    """When the connection is cut: before the call has its effect, or after."""

    BEFORE_EFFECT = "before"
    AFTER_EFFECT = "after"


@dataclass(frozen=True)
class Fault:
    """What happens to one call.

    Attributes:
        status: 200 lets the call have its effect; anything else refuses it.
        description: the server's words, for a refusal.
        retry_after: seconds, for a 429.
        moved_to: the chat's new number, for a 400.
        drop: cut the connection instead of answering.
        delay: seconds before the answer; the call has its effect at once.
        body: answered as it is, with ``status``, in place of anything the API would say.
    """

    status: int = 200
    description: str = ""
    retry_after: int | None = None
    moved_to: int | None = None
    drop: Drop | None = None
    delay: float = 0.0
    body: str | None = None


def flood(seconds: int) -> Fault:
    """Too many messages: 429 with retry_after."""
    return Fault(429, f"Too Many Requests: retry after {seconds}", retry_after=seconds)


def forbidden(description: str = "Forbidden: bot was blocked by the user") -> Fault:
    """403 with the words given."""
    return Fault(403, description)


def bad_request(description: str = "Bad Request: chat not found") -> Fault:
    """400 with the words given."""
    return Fault(400, description)


def server_error(status: int = 500) -> Fault:
    """A failure on the server's side."""
    return Fault(status, "Internal Server Error")


def gateway_page(status: int = 502) -> Fault:
    """A page by some machine in between, not by the Bot API."""
    return Fault(status, body="<html><body>Bad Gateway</body></html>")


def moved(chat: int) -> Fault:
    """The chat has a new number."""
    return Fault(400, "Bad Request: group chat was upgraded to a supergroup chat", moved_to=chat)


def conflict() -> Fault:
    """Another program fetches this bot's updates: 409."""
    return Fault(409, "Conflict: terminated by other getUpdates request")


def dropped(when: Drop) -> Fault:
    """The connection is cut before or after the call has its effect."""
    return Fault(drop=when)


def slow(seconds: float) -> Fault:
    """The call has its effect, but its answer comes late."""
    return Fault(delay=seconds)
