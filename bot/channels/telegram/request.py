"""How the bot library reaches the Bot API: over aiohttp, sooner than by its own requests."""

import ssl
from functools import cache
from typing import Any

import aiohttp
import httpx
from telegram.error import NetworkError, TimedOut
from telegram.request import BaseRequest, RequestData

_CONNECT_SECONDS = 5.0


@cache
def tls() -> ssl.SSLContext:
    """Make the trust store for the bot's connections once: reading it is most of the start-up."""
    return httpx.create_ssl_context()


class BotApiRequest(BaseRequest):
    """Connections to the Bot API; no letter of ours carries a file.

    What went wrong is the cause of the library's error, by which it is told whether the server was
    met at all. aiohttp itself never repeats a POST, and a letter that is sent elsewhere does not go
    there.

    Args:
        read_timeout: how many seconds the server may be silent.

    """

    def __init__(self, read_timeout: float) -> None:
        self._read_timeout = read_timeout
        self._session: aiohttp.ClientSession | None = None
        self._let_go = False
        self.last_answer = b""

    @property
    def read_timeout(self) -> float:
        """How many seconds the server may be silent, unless a request says otherwise."""
        return self._read_timeout

    async def initialize(self) -> None:
        """Be ready for connections; each is made when it is first needed."""
        self._let_go = False

    async def shutdown(self) -> None:
        """Let go of every connection, and make no other."""
        self._let_go = True
        if self._session is not None:
            await self._session.close()

    async def do_request(
        self,
        url: str,
        method: str,
        request_data: RequestData | None = None,
        read_timeout: Any = BaseRequest.DEFAULT_NONE,
        write_timeout: Any = BaseRequest.DEFAULT_NONE,
        connect_timeout: Any = BaseRequest.DEFAULT_NONE,
        pool_timeout: Any = BaseRequest.DEFAULT_NONE,
    ) -> tuple[int, bytes]:
        """Ask the server; gives the status and the body of its answer.

        Raises:
            TimedOut: it was not met or did not answer in time.
            NetworkError: it was not met, or the connection broke.
            RuntimeError: after ``shutdown``.

        """
        del write_timeout, connect_timeout, pool_timeout
        form = request_data.json_parameters if request_data else None
        silent = self._read_timeout if read_timeout is self.DEFAULT_NONE else read_timeout
        # Looking up the server's name is part of connecting.
        limits = aiohttp.ClientTimeout(total=None, connect=_CONNECT_SECONDS, sock_read=silent)
        try:
            async with self._open().request(
                method, url, data=form, timeout=limits, allow_redirects=False
            ) as answer:
                self.last_answer = await answer.read()
                return answer.status, self.last_answer
        except aiohttp.ServerTimeoutError as error:
            raise TimedOut from error
        except aiohttp.ClientError as error:
            raise NetworkError(_words(error)) from error

    def _open(self) -> aiohttp.ClientSession:
        if self._let_go:
            raise RuntimeError("its connections were let go of")
        if self._session is None or self._session.closed:
            self._session = aiohttp.ClientSession(
                connector=aiohttp.TCPConnector(ssl=tls(), limit=0),
                cookie_jar=aiohttp.DummyCookieJar(),
                headers={"User-Agent": self.USER_AGENT},
                trust_env=True,
            )
        return self._session


def _words(error: aiohttp.ClientError) -> str:
    """Say what went wrong, without the address, which has the token in it."""
    why = error.strerror if isinstance(error, OSError) else None
    return f"{type(error).__name__}: {why}" if why else type(error).__name__
