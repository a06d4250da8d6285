"""An HTTP server on a free local port, in a thread of its own."""

import asyncio
import threading
from collections.abc import Iterator
from contextlib import contextmanager

from aiohttp import web

from deploy.standins.waiting import WAIT_AT_MOST_SECONDS


async def _serve(
    app: web.Application, port: list[int], started: threading.Event, stop: asyncio.Event
) -> None:
    runner = web.AppRunner(app, access_log=None, shutdown_timeout=0.2)
    await runner.setup()
    await web.TCPSite(runner, "127.0.0.1", 0).start()
    port.append(int(runner.addresses[0][1]))
    started.set()
    await stop.wait()
    await runner.cleanup()


@contextmanager
def serving(app: web.Application) -> Iterator[str]:
    """Serve an application, and give its address.

    Raises:
        RuntimeError: it did not start.
    """
    port: list[int] = []
    loop, started, stop = asyncio.new_event_loop(), threading.Event(), asyncio.Event()
    thread = threading.Thread(
        target=loop.run_until_complete, args=(_serve(app, port, started, stop),), daemon=True
    )
    thread.start()
    if not started.wait(WAIT_AT_MOST_SECONDS):
        raise RuntimeError("the local server did not start")
    try:
        yield f"http://127.0.0.1:{port[0]}"
    finally:
        loop.call_soon_threadsafe(stop.set)
        thread.join(WAIT_AT_MOST_SECONDS)
        loop.close()
