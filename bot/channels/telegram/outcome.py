"""What an error of the Bot API means for the letter that met it."""

from datetime import timedelta

import aiohttp
from telegram.error import (
    BadRequest,
    ChatMigrated,
    Forbidden,
    InvalidToken,
    NetworkError,
    RetryAfter,
    TelegramError,
)

from bot.channels.channel import SendOutcome, SendResult
from bot.channels.telegram.patience import asked_wait
from bot.channels.trouble import TROUBLES, Trouble

GONE = {
    "blocked by the user": Trouble.BLOCKED,
    "user is deactivated": Trouble.ACCOUNT_GONE,
    "can't initiate conversation with a user": Trouble.NEVER_BEGUN,
    "chat not found": Trouble.NO_SUCH_CHAT,
}
"""The refusals after which a chat takes no message any more.

Only these words count: a chat cut off for a refusal that nobody foresaw would be lost in silence.
"""

_NEVER_LEFT = (
    aiohttp.ClientConnectorError,
    aiohttp.ConnectionTimeoutError,
    aiohttp.ClientHttpProxyError,
    aiohttp.InvalidURL,
)
"""Errors of a request that met no server."""

_IN_DOUBT = frozenset({Trouble.NO_ANSWER, Trouble.ODD_ANSWER})


def outcome_of(error: Exception) -> SendOutcome:
    """Say what became of a letter whose send ended in ``error``."""
    trouble = trouble_of(error)
    return SendOutcome(
        result_of(trouble),
        said=str(error) or type(error).__name__,
        wait=_at_least_a_second(error) if isinstance(error, RetryAfter) else None,
        moved_to=str(error.new_chat_id) if isinstance(error, ChatMigrated) else None,
        trouble=trouble,
    )


def result_of(trouble: Trouble) -> SendResult:
    """How a send that met this trouble ended."""
    facts = TROUBLES[trouble]
    if facts.address_gone:
        return SendResult.UNREACHABLE
    if facts.for_good:
        return SendResult.REFUSED
    return SendResult.UNKNOWN if trouble in _IN_DOUBT else SendResult.LATER


def trouble_of(error: Exception) -> Trouble:
    """Find an error's place in the closed list."""
    # A bad request is a network error to the library: asked about later, it would be sent for ever.
    if isinstance(error, Forbidden | BadRequest):
        words = str(error).lower()
        return next((what for said, what in GONE.items() if said in words), Trouble.REFUSED)
    for kind, trouble in _BY_KIND.items():
        if isinstance(error, kind):
            return trouble
    return _unless_it_left(error) if isinstance(error, NetworkError) else Trouble.ODD_ANSWER


_BY_KIND = {
    RetryAfter: Trouble.FLOOD,
    ChatMigrated: Trouble.MOVED,
    InvalidToken: Trouble.TOKEN_REFUSED,
}


def _unless_it_left(error: NetworkError) -> Trouble:
    """Tell a server that was not met, or that answered with a failure, from one that was silent."""
    cause = error.__cause__
    if cause is None or isinstance(cause, TelegramError):
        return Trouble.CARRIER_FAILED
    return Trouble.NO_CONNECTION if isinstance(cause, _NEVER_LEFT) else Trouble.NO_ANSWER


def _at_least_a_second(error: RetryAfter) -> timedelta:
    return max(asked_wait(error), timedelta(seconds=1))
