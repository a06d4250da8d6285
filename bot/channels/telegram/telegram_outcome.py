"""What an error of the Bot API means for the letter that met it."""

from datetime import timedelta

from telegram.error import (
    BadRequest,
    ChatMigrated,
    Forbidden,
    InvalidToken,
    NetworkError,
    RetryAfter,
    TelegramError,
)

from bot.channels.channel import SendOutcome
from bot.channels.outcome import error_of_transport, result_of
from bot.channels.send_error import SendError
from bot.channels.telegram.retry import asked_wait

GONE = {
    "blocked by the user": SendError.BLOCKED,
    "user is deactivated": SendError.ACCOUNT_GONE,
    "can't initiate conversation with a user": SendError.NEVER_BEGUN,
    "chat not found": SendError.NO_SUCH_CHAT,
}
"""The refusals after which a chat takes no message any more.

Only these words count: a chat cut off for a refusal that nobody foresaw would be lost in silence.
"""


def outcome_of(error: Exception) -> SendOutcome:
    """Say what became of a letter whose send ended in ``error``."""
    send_error = error_of(error)
    return SendOutcome(
        result_of(send_error),
        said=str(error) or type(error).__name__,
        wait=_at_least_a_second(error) if isinstance(error, RetryAfter) else None,
        moved_to=str(error.new_chat_id) if isinstance(error, ChatMigrated) else None,
        error=send_error,
    )


def error_of(error: Exception) -> SendError:
    """Find an error's place in the closed list."""
    # A bad request is a network error to the library: asked about later, it would be sent for ever.
    if isinstance(error, Forbidden | BadRequest):
        words = str(error).lower()
        return next((what for said, what in GONE.items() if said in words), SendError.REFUSED)
    for kind, send_error in _BY_KIND.items():
        if isinstance(error, kind):
            return send_error
    return _unless_it_left(error) if isinstance(error, NetworkError) else SendError.ODD_ANSWER


_BY_KIND = {
    RetryAfter: SendError.FLOOD,
    ChatMigrated: SendError.MOVED,
    InvalidToken: SendError.TOKEN_REFUSED,
}


def _unless_it_left(error: NetworkError) -> SendError:
    """Tell a server that was not met, or that answered with a failure, from one that was silent."""
    cause = error.__cause__
    if cause is None or isinstance(cause, TelegramError):
        return SendError.CARRIER_FAILED
    return error_of_transport(cause)


def _at_least_a_second(error: RetryAfter) -> timedelta:
    return max(asked_wait(error), timedelta(seconds=1))
