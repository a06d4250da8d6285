"""An HTTP server on a local port, in a thread of its own."""

import asyncio
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from aiohttp import web

from deploy.standins.waiting import WAIT_AT_MOST_SECONDS


@contextmanager
def serving(
    app: web.Application, port: int = 0, closing: Callable[[], object] = lambda: None
) -> Iterator[str]:
    """Serve an application, and give its address.

    Args:
        app: what answers.
        port: where it listens; 0 takes a free port.
        closing: called when it is about to stop, while requests may be waiting yet.

    Raises:
        RuntimeError: it did not start (the port is taken).
    """
    runner = web.AppRunner(app, access_log=None, shutdown_timeout=0.2)
    loop, started, stop = asyncio.new_event_loop(), threading.Event(), asyncio.Event()

    async def serve() -> None:
        await runner.setup()
        await web.TCPSite(runner, "127.0.0.1", port).start()
        started.set()
        await stop.wait()
        closing()
        await runner.cleanup()

    thread = threading.Thread(target=loop.run_until_complete, args=(serve(),), daemon=True)
    thread.start()
    if not started.wait(WAIT_AT_MOST_SECONDS):
        raise RuntimeError(f"the local server did not start on port {port}")
    try:
        yield f"http://127.0.0.1:{runner.addresses[0][1]}"
    finally:
        loop.call_soon_threadsafe(stop.set)
        thread.join(WAIT_AT_MOST_SECONDS)
        loop.close()
