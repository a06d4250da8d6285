"""The pages: whether the program is well, and its metrics."""

import asyncio
from collections.abc import Callable, Sequence
from datetime import datetime, timedelta

from prometheus_client import CONTENT_TYPE_LATEST
from sqlalchemy import Engine, select
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from bot.delivery.silent_channels import silent_since
from bot.monitoring.heartbeats import beats_in, last_beat, tick_name
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
