"""Reading what somebody posted, no more of it than we want and no longer than we wait."""

import asyncio

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
