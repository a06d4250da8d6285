"""What a send error means for the message that met it, for every carrier."""

from datetime import timedelta

import httpx

from bot.channels.channel import SendOutcome, SendResult
from bot.channels.send_error import SEND_ERRORS, SendError

_IN_DOUBT = frozenset({SendError.NO_ANSWER, SendError.ODD_ANSWER})
"""After these the message may have arrived."""

_LONGEST_SAID = 200
"""Characters of a carrier's words that are kept."""

_NEVER_LEFT = (
    httpx.ConnectError,
    httpx.ConnectTimeout,
    httpx.PoolTimeout,
    httpx.ProxyError,
    httpx.UnsupportedProtocol,
    httpx.InvalidURL,
)
"""Errors of a request that met no server."""


def failed(send_error: SendError, said: str = "", wait: timedelta | None = None) -> SendOutcome:
    """Say how a send ended that met an error, with the carrier's words and the wait it asked."""
    words = said[:_LONGEST_SAID] or SEND_ERRORS[send_error].words
    return SendOutcome(result_of(send_error), said=words, wait=wait, error=send_error)


def result_of(send_error: SendError) -> SendResult:
    """Say how a send ended that met this error."""
    facts = SEND_ERRORS[send_error]
    if facts.address_gone:
        return SendResult.UNREACHABLE
    if facts.for_good:
        return SendResult.REFUSED
    return SendResult.UNKNOWN if send_error in _IN_DOUBT else SendResult.LATER


def error_of_transport(error: BaseException) -> SendError:
    """Tell a server that was not met from one that was silent."""
    return SendError.NO_CONNECTION if isinstance(error, _NEVER_LEFT) else SendError.NO_ANSWER
