"""The pages for whoever watches the program: whether it is well, and its metrics."""

import asyncio
from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import datetime, timedelta
from threading import Lock

from prometheus_client import CONTENT_TYPE_LATEST, CollectorRegistry, generate_latest
from prometheus_client.core import CounterMetricFamily, GaugeMetricFamily, InfoMetricFamily, Metric
from prometheus_client.registry import Collector
from sqlalchemy import Engine
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from bot.jobs.health import health
from bot.monitoring import Counted, all_counts
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
    Counted.SET_ASIDE: ("channel",),
    Counted.POLLS: ("channel",),
    Counted.SEGMENTS: ("carrier",),
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
    yield _at("outbox_oldest_planned", "When the oldest was planned.", status.oldest_waiting)
    beats = {name: at.timestamp() for name, at in status.beats.items()}
    yield _by("heartbeat_timestamp_seconds", "When a thing last happened.", "name", beats)
    silent = {channel: since.timestamp() for channel, since in status.silent.items()}
    said = "Since when a channel has taken nothing."
    yield _by("silent_since_timestamp_seconds", said, "channel", silent)
    yield _one("segments_used", "Segments of SMS sent in this month of UTC.", status.texts_used)
    yield _one("unreached", "Whom messages do not reach, by channel.", len(status.unreached))
    yield from _weather(status)


def _weather(status: Status) -> Iterator[Metric]:
    """The oldest only, and how many have none: a label for each yard would be too many."""
    answered = [yard.answered_at for yard in status.yards if yard.answered_at is not None]
    oldest = min(answered, default=None)
    yield _at("weather_oldest", "When the yard longest without weather had some.", oldest)
    without = len(status.yards) - len(answered)
    yield _one("yards_without_weather", "Yards with a place that have had no answer.", without)


def _one(name: str, said: str, value: float) -> Metric:
    return GaugeMetricFamily(f"yardbell_{name}", said, value=value)


def _by(name: str, said: str, label: str, values: Mapping[str, float]) -> Metric:
    family = GaugeMetricFamily(f"yardbell_{name}", said, labels=[label])
    for key, value in values.items():
        family.add_metric([key], value)
    return family


def _at(name: str, said: str, at: datetime | None) -> Metric:
    """An instant, from which whoever asks knows the age; none at all where there was nothing."""
    family = GaugeMetricFamily(f"yardbell_{name}_timestamp_seconds", said)
    if at is not None:
        family.add_metric([], at.timestamp())
    return family


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
