"""The pages for whoever watches the program: whether it is well, and its metrics."""

import asyncio
from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import datetime, timedelta
from threading import Lock

from prometheus_client import CONTENT_TYPE_LATEST, CollectorRegistry, generate_latest
from prometheus_client.core import CounterMetricFamily, GaugeMetricFamily, InfoMetricFamily, Metric
from prometheus_client.registry import Collector
from sqlalchemy import Engine, select
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from bot.delivery.silent_channels import silent_since
from bot.monitoring import Counted, all_counts, beats_in, last_beat, tick_name
from bot.version import version
from bot.web.program_status import Status, status_of
from scheduling.records.engine import reading

_LABELS = {
    Counted.MESSAGES_IN: ("channel",),
    Counted.READINGS: ("outcome",),
    Counted.SENDS: ("channel", "result"),
    Counted.EXPIRED: (),
    Counted.MORNINGS: (),
    Counted.TICKS: ("tick", "result"),
    Counted.POLLS: ("channel",),
}


STATUS_KEPT = timedelta(seconds=15)
"""How long the status is cached, whoever asks and however often: as often as Prometheus asks."""


class _Program(Collector):
    """Counts of this process, and what the database says at the moment of asking."""

    def __init__(self, engine: Engine, clock: Callable[[], datetime]) -> None:
        self._engine = engine
        self._clock = clock
        self._lock = Lock()
        self._status: Status | None = None

    def collect(self) -> Iterable[Metric]:
        """Give every metric with its present values."""
        yield InfoMetricFamily("yardbell_build", "What runs.", value={"version": version()})
        yield from _counters()
        yield from _gauges(self._status_by_now())

    def _status_by_now(self) -> Status:
        """Read the status, unless it was read a moment ago."""
        with self._lock:
            now, last = self._clock(), self._status
            if last is None or not timedelta(0) <= now - last.now < STATUS_KEPT:
                with reading(self._engine) as session:
                    last = self._status = status_of(session, now, next_few=0, with_texts=False)
            return last


def metrics_of(engine: Engine, clock: Callable[[], datetime]) -> Callable[[], bytes]:
    """Make what writes all metrics in Prometheus' text format."""
    registry = CollectorRegistry()
    registry.register(_Program(engine, clock))
    return lambda: generate_latest(registry)


def _counters() -> Iterator[Metric]:
    families = {
        what: CounterMetricFamily(f"yardbell_{what.name.lower()}", what, labels=labels)
        for what, labels in _LABELS.items()
    }
    for (what, labels), number in all_counts().items():
        given = dict(labels)
        families[what].add_metric([given[label] for label in _LABELS[what]], number)
    yield from families.values()


def _gauges(status: Status) -> Iterator[Metric]:
    yield _by("outbox", "Messages out, by state.", "state", status.outbox)
    yield _by("inbox", "Messages in, by state.", "state", status.inbox)
    yield _one("people", "People of all crews.", status.people)
    yield _one("mornings_overdue", "Mornings that have come and wait.", status.overdue)
    waits = _seconds(status.oldest_waiting, status.now)
    yield _one("outbox_oldest_planned_seconds", "How long the oldest planned one waits.", waits)
    beats = {name: _seconds(at, status.now) for name, at in status.beats.items()}
    yield _by("heartbeat_age_seconds", "Since a thing last happened.", "name", beats)
    silent = {channel: _seconds(since, status.now) for channel, since in status.silent.items()}
    yield _by("silent_seconds", "Since when a channel takes nothing.", "channel", silent)
    yield from _weather(status)


def _weather(status: Status) -> Iterator[Metric]:
    """The oldest only, and how many have none: a label for each yard would be too many."""
    answered = [yard.answered_at for yard in status.yards if yard.answered_at is not None]
    oldest = _seconds(min(answered, default=None), status.now)
    yield _one("weather_oldest_seconds", "Age of the oldest yard's weather.", oldest)
    without = len(status.yards) - len(answered)
    yield _one("yards_without_weather", "Yards with a place that have had no answer.", without)


def _one(name: str, said: str, value: float) -> Metric:
    return GaugeMetricFamily(f"yardbell_{name}", said, value=value)


def _by(name: str, said: str, label: str, values: Mapping[str, float]) -> Metric:
    family = GaugeMetricFamily(f"yardbell_{name}", said, labels=[label])
    for key, value in values.items():
        family.add_metric([key], value)
    return family


def _seconds(at: datetime | None, now: datetime) -> float:
    return 0.0 if at is None else max(0.0, (now - at).total_seconds())


TICKED_WITHIN = timedelta(minutes=1)
"""A process whose outbox tick has not ended well for so long is not well."""


def pages_app(engine: Engine, clock: Callable[[], datetime]) -> Starlette:
    """Make the application, for an address of its own that carriers need not reach.

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

    return Starlette(routes=[Route("/health", show_health), Route("/metrics", show_metrics)])


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
