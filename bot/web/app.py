"""The HTTP server inside the running program: whether the program is well, and its metrics."""

import asyncio
import os
import socket
from collections.abc import AsyncIterator, Callable, Iterator, Sequence
from contextlib import asynccontextmanager, contextmanager
from datetime import datetime, timedelta

import uvicorn
from prometheus_client import CONTENT_TYPE_LATEST
from sqlalchemy import Engine, select
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route
from starlette.types import ASGIApp

from bot.delivery.silent_channels import silent_since
from bot.monitoring import beats_in, last_beat, tick_name
from bot.program_log import log_of
from bot.settings.address import CannotListenError, HttpAddress
from bot.web.metrics import metrics_of
from scheduling.records.engine import reading

TICKED_WITHIN = timedelta(minutes=1)
"""A process whose outbox tick has not ended well for so long is not well."""


def pages_app(
    engine: Engine, clock: Callable[[], datetime], carriers: Sequence[Route] = ()
) -> Starlette:
    """Make the application; ``carriers`` are the addresses that carriers post to.

    ``/health`` answers 200 when this process works and reaches its database, else 503; a carrier
    that takes nothing is told of but is no fault of ours that a restart would mend.
    ``/metrics`` is for Prometheus. Neither tells of anybody.
    """
    metrics = metrics_of(engine, clock)

    async def show_health(_request: Request) -> Response:
        found = await asyncio.to_thread(health, engine, clock())
        return JSONResponse(found, status_code=200 if found["ok"] else 503)

    async def show_metrics(_request: Request) -> Response:
        return Response(await asyncio.to_thread(metrics), media_type=CONTENT_TYPE_LATEST)

    pages = [Route("/health", show_health), Route("/metrics", show_metrics)]
    return Starlette(routes=[*pages, *carriers])


def health(engine: Engine, now: datetime) -> dict[str, object]:
    """Say whether this process is well, and what is not."""
    ticked = last_beat(tick_name("outbox"))
    ticks = ticked is not None and now - ticked <= TICKED_WITHIN
    try:
        with reading(engine) as session:
            session.execute(select(1))
            silent = list(silent_since(session, now, beats_in(session)))
        database = True
    except Exception:  # noqa: BLE001 - whatever keeps us from it
        silent, database = [], False
    return {"ok": ticks and database, "ticks": ticks, "database": database, "silent": silent}


log = log_of(__name__)


class _Server(uvicorn.Server):
    """A server that leaves the signals to the program it is part of."""

    @contextmanager
    def capture_signals(self) -> Iterator[None]:
        """Take no signal over."""
        yield


@asynccontextmanager
async def listening(app: ASGIApp, address: HttpAddress) -> AsyncIterator[HttpAddress]:
    """Answer HTTP at an address, and give the one that was taken.

    Raises:
        CannotListenError: the address is taken or not ours.
    """
    open_socket = _bound(address)
    taken = HttpAddress(address.host, int(open_socket.getsockname()[1]))
    config = uvicorn.Config(app, log_config=None, access_log=False, lifespan="off", ws="none")
    server = _Server(config)
    serving = asyncio.create_task(server.serve(sockets=[open_socket]))
    log.info("listening", listening=str(taken))
    try:
        yield taken
    finally:
        server.should_exit = True
        await asyncio.gather(serving, return_exceptions=True)
        open_socket.close()


def _bound(address: HttpAddress) -> socket.socket:
    family = socket.AF_INET6 if ":" in address.host else socket.AF_INET
    try:
        return socket.create_server((address.host, address.port), family=family)
    except OSError as error:
        said = os.strerror(error.errno) if error.errno else str(error)
        raise CannotListenError(f"YARDBELL_HTTP: cannot listen on {address}: {said}") from None
