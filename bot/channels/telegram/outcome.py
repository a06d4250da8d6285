"""What an error of the Bot API means for the letter that met it."""

from datetime import timedelta

import httpx
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

GONE = (
    "blocked by the user",
    "user is deactivated",
    "can't initiate conversation with a user",
    "chat not found",
)
"""The refusals after which a chat takes no message any more.

Only these words count: a chat cut off for a refusal that nobody foresaw would be lost in silence.
"""

_NEVER_LEFT = (
    httpx.ConnectError,
    httpx.ConnectTimeout,
    httpx.PoolTimeout,
    httpx.ProxyError,
    httpx.UnsupportedProtocol,
)
"""Errors of a request that met no server."""


def outcome_of(error: Exception) -> SendOutcome:
    """Say what became of a letter whose send ended in ``error``."""
    said = str(error) or type(error).__name__
    if isinstance(error, RetryAfter):
        return SendOutcome(SendResult.LATER, said=said, wait=_at_least_a_second(error))
    if isinstance(error, ChatMigrated):
        return SendOutcome(SendResult.LATER, said=said, moved_to=str(error.new_chat_id))
    return SendOutcome(_result(error), said=said)


def _at_least_a_second(error: RetryAfter) -> timedelta:
    return max(asked_wait(error), timedelta(seconds=1))


def _result(error: Exception) -> SendResult:
    # A bad request is a network error to the library: asked about later, it would be sent for ever.
    if isinstance(error, Forbidden | BadRequest):
        gone = any(words in str(error).lower() for words in GONE)
        return SendResult.UNREACHABLE if gone else SendResult.REFUSED
    if isinstance(error, InvalidToken):
        return SendResult.LATER
    if isinstance(error, NetworkError):
        return _unless_it_left(error)
    return SendResult.UNKNOWN


def _unless_it_left(error: NetworkError) -> SendResult:
    """Later if no server took the letter or one answered that it failed; else nobody knows."""
    cause = error.__cause__
    answered = cause is None or isinstance(cause, TelegramError)
    return SendResult.LATER if answered or isinstance(cause, _NEVER_LEFT) else SendResult.UNKNOWN
