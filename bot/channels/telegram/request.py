"""How the bot library reaches the Bot API: by its own HTTP client, with one trust store for all."""

import ssl
from functools import cache
from typing import Any

import httpx
from telegram.request import HTTPXRequest


@cache
def tls() -> ssl.SSLContext:
    """Make the trust store for the bot's connections once: reading it is most of the start-up."""
    return httpx.create_ssl_context()


class BotApiRequest(HTTPXRequest):
    """Connections to the Bot API, which keep the last answer, to look into it again.

    What went wrong is the cause of the library's error, by which it is told whether the server was
    met at all. httpx itself never repeats a request, nor follows a redirect with the token.

    Args:
        read_timeout: how many seconds the server may be silent.

    """

    last_answer: bytes = b""

    def __init__(self, read_timeout: float) -> None:
        super().__init__(
            read_timeout=read_timeout, httpx_kwargs={"verify": tls(), "follow_redirects": False}
        )

    async def do_request(self, *args: Any, **kwargs: Any) -> tuple[int, bytes]:
        """Send the request as the library does, and keep the answer."""
        status, self.last_answer = await super().do_request(*args, **kwargs)
        return status, self.last_answer
