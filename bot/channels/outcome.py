"""What a trouble means for the letter that met it, the same for every carrier of texts and mail."""

from datetime import timedelta

import httpx

from bot.channels.channel import SendOutcome, SendResult
from bot.channels.trouble import TROUBLES, Trouble

IN_DOUBT = frozenset({Trouble.NO_ANSWER, Trouble.ODD_ANSWER})
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


def failed(trouble: Trouble, said: str = "", wait: timedelta | None = None) -> SendOutcome:
    """Say how a send ended that met a trouble, with the carrier's words and the wait it asked."""
    facts = TROUBLES[trouble]
    if facts.address_gone:
        result = SendResult.UNREACHABLE
    elif facts.for_good:
        result = SendResult.REFUSED
    else:
        result = SendResult.UNKNOWN if trouble in IN_DOUBT else SendResult.LATER
    return SendOutcome(result, said=said[:LONGEST_SAID] or facts.words, wait=wait, trouble=trouble)


def trouble_of_transport(error: httpx.HTTPError) -> Trouble:
    """Tell a server that was not met from one that was silent."""
    return Trouble.NO_CONNECTION if isinstance(error, _NEVER_LEFT) else Trouble.NO_ANSWER
