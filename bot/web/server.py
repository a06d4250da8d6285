"""The HTTP server inside the running program: it listens, within limits, until told to stop."""

import asyncio
import os
import socket
from collections.abc import AsyncIterator, Iterator
from contextlib import asynccontextmanager, contextmanager

import uvicorn
from starlette.types import ASGIApp

from bot.program_log import log_of
from bot.settings.address import CannotListenError, HttpAddress
from bot.web.limited_connection import AT_ONCE, LimitedConnection

log = log_of(__name__)


class _Server(uvicorn.Server):
    """A server that leaves the signals to the program it is part of."""

    @contextmanager
    def capture_signals(self) -> Iterator[None]:
        """Take no signal over."""
        yield


@asynccontextmanager
async def listening(
    app: ASGIApp, address: HttpAddress, setting: str = "YARDBELL_HTTP"
) -> AsyncIterator[HttpAddress]:
    """Answer HTTP at an address, and give the one that was taken.

    Args:
        app: what answers.
        address: where.
        setting: the name of the setting that says so.

    Raises:
        CannotListenError: the address is taken or not ours.
    """
    open_socket = _bound(address, setting)
    taken = HttpAddress(address.host, int(open_socket.getsockname()[1]))
    config = uvicorn.Config(
        app,
        http=LimitedConnection,
        backlog=AT_ONCE,
        server_header=False,
        log_config=None,
        access_log=False,
        lifespan="off",
        ws="none",
    )
    server = _Server(config)
    serving = asyncio.create_task(server.serve(sockets=[open_socket]))
    log.info("listening", listening=str(taken), what=setting)
    try:
        yield taken
    finally:
        server.should_exit = True
        await asyncio.gather(serving, return_exceptions=True)
        open_socket.close()


def _bound(address: HttpAddress, setting: str) -> socket.socket:
    family = socket.AF_INET6 if ":" in address.host else socket.AF_INET
    try:
        return socket.create_server((address.host, address.port), family=family)
    except OSError as error:
        said = os.strerror(error.errno) if error.errno else str(error)
        raise CannotListenError(f"{setting}: cannot listen on {address}: {said}") from None
