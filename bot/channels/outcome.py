"""What a send error means for the message that met it, for every carrier of texts and mail."""

from datetime import timedelta

import httpx

from bot.channels.channel import SendOutcome, SendResult
from bot.channels.send_error import SEND_ERRORS, SendError

IN_DOUBT = frozenset({SendError.NO_ANSWER, SendError.ODD_ANSWER})
"""After these the message may have arrived."""

LONGEST_SAID = 200
"""Characters of a carrier's words that are kept."""

_NEVER_LEFT = (
    httpx.ConnectError,
    httpx.ConnectTimeout,
    httpx.PoolTimeout,
    httpx.ProxyError,
    httpx.UnsupportedProtocol,
)
"""Errors of a request that met no server."""


def failed(send_error: SendError, said: str = "", wait: timedelta | None = None) -> SendOutcome:
    """Say how a send ended that met an error, with the carrier's words and the wait it asked."""
    facts = SEND_ERRORS[send_error]
    if facts.address_gone:
        result = SendResult.UNREACHABLE
    elif facts.for_good:
        result = SendResult.REFUSED
    else:
        result = SendResult.UNKNOWN if send_error in IN_DOUBT else SendResult.LATER
    return SendOutcome(result, said=said[:LONGEST_SAID] or facts.words, wait=wait, error=send_error)


def error_of_transport(error: httpx.HTTPError) -> SendError:
    """Tell a server that was not met from one that was silent."""
    return SendError.NO_CONNECTION if isinstance(error, _NEVER_LEFT) else SendError.NO_ANSWER
