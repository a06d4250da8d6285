"""Limits on what is posted to a webhook: its size, its time, how many a second (rate limit)."""

import asyncio
from dataclasses import dataclass, field
from datetime import datetime

from starlette.requests import ClientDisconnect, Request

MOST_OCTETS = 16_384
"""No carrier's notice of one text message is longer: 1,600 letters of three octets, each written as
three, and a few hundred octets of facts."""

WAIT_SECONDS = 10.0


class NoBody(Exception):  # noqa: N818 - it says what is so
    """The body is too long, too slow, or was broken off; ``status`` is what HTTP calls it."""

    def __init__(self, status: int) -> None:
        super().__init__(str(status))
        self.status = status


async def body_of(request: Request, most: int = MOST_OCTETS) -> bytes:
    """Read the body.

    Raises:
        NoBody: there is none that we take.
    """
    said = request.headers.get("content-length", "")
    if said.isdecimal() and int(said) > most:
        raise NoBody(413)
    try:
        async with asyncio.timeout(WAIT_SECONDS):
            return await _read(request, most)
    except TimeoutError:
        raise NoBody(408) from None
    except ClientDisconnect:
        raise NoBody(400) from None


async def _read(request: Request, most: int) -> bytes:
    body = bytearray()
    async for chunk in request.stream():
        body += chunk
        if len(body) > most:
            raise NoBody(413)
    return bytes(body)


@dataclass
class Bucket:
    """Lets ``a_second`` requests through in the long run, and ``at_once`` after a pause."""

    a_second: float
    at_once: float
    _left: float = field(init=False)
    _since: datetime | None = field(default=None, init=False)

    def __post_init__(self) -> None:
        """Begin full."""
        self._left = self.at_once

    def take(self, now: datetime) -> bool:
        """Let one through, or say that it is one too many."""
        passed = 0.0 if self._since is None else max(0.0, (now - self._since).total_seconds())
        self._left = min(self.at_once, self._left + passed * self.a_second)
        self._since = now
        if self._left < 1:
            return False
        self._left -= 1
        return True
