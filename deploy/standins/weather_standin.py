"""A weather service on this machine, which answers as it is told to."""

import asyncio
import json
from collections.abc import Awaitable, Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Any

from aiohttp import web

from deploy.standins.local_http import serving

Answer = Callable[[web.Request], Awaitable[web.StreamResponse]]


def hourly(first: datetime, count: int, **columns: object) -> dict[str, Any]:
    """An answer in the documented form, of a fine day unless a column says otherwise."""
    fine: dict[str, object] = {
        "temperature_2m": [24.3] * count,
        "wind_speed_10m": [7.9] * count,
        "precipitation": [0.0] * count,
        "cloud_cover": [20] * count,
        "sunshine_duration": [3600.0] * count,
        "relative_humidity_2m": [48] * count,
    }
    times = [(first + timedelta(hours=hour)).strftime("%Y-%m-%dT%H:%M") for hour in range(count)]
    return {
        "latitude": 41.3,
        "longitude": -92.6,
        "generationtime_ms": 0.07,
        "utc_offset_seconds": 0,
        "timezone": "GMT",
        "timezone_abbreviation": "GMT",
        "elevation": 210.0,
        "hourly_units": {
            "time": "iso8601",
            "temperature_2m": "\N{DEGREE SIGN}C",
            "wind_speed_10m": "km/h",
            "precipitation": "mm",
            "cloud_cover": "%",
            "sunshine_duration": "s",
            "relative_humidity_2m": "%",
        },
        "hourly": {"time": times, **fine, **columns},
    }


def says(body: object, status: int = 200, headers: dict[str, str] | None = None) -> Answer:
    """Answers with JSON, or with text as it stands."""

    async def answer(_request: web.Request) -> web.StreamResponse:
        text = body if isinstance(body, str) else json.dumps(body)
        return web.Response(
            text=text, status=status, headers=headers, content_type="application/json"
        )

    return answer


def cut_off(body: object, after: int = 40) -> Answer:
    """Promises a whole answer and hangs up in the middle of it."""

    async def answer(request: web.Request) -> web.StreamResponse:
        whole = json.dumps(body).encode()
        response = web.StreamResponse(headers={"Content-Length": str(len(whole))})
        await response.prepare(request)
        await response.write(whole[:after])
        assert request.transport is not None
        request.transport.close()
        return response

    return answer


def late(seconds: float, body: object) -> Answer:
    """Answers after a while."""

    async def answer(request: web.Request) -> web.StreamResponse:
        await asyncio.sleep(seconds)
        return await says(body)(request)

    return answer


def trickling(bytes_in_all: int, every: float = 0.0) -> Answer:
    """Sends and sends."""

    async def answer(request: web.Request) -> web.StreamResponse:
        response = web.StreamResponse()
        await response.prepare(request)
        for _ in range(bytes_in_all // 10_000):
            await response.write(b" " * 10_000)
            await asyncio.sleep(every)
        return response

    return answer


@dataclass
class WeatherStandin:
    """What the service was asked, and what it answers: in turn, the last one for ever.

    Attributes:
        url: its address.
        asked: the questions, oldest first.
        answers: what is answered.
    """

    url: str = ""
    asked: list[dict[str, str]] = field(default_factory=list)
    paths: list[str] = field(default_factory=list)
    answers: list[Answer] = field(default_factory=list)

    async def serve(self, request: web.Request) -> web.StreamResponse:
        """Answer one question."""
        self.asked.append(dict(request.query))
        self.paths.append(request.path)
        answer = self.answers[0] if len(self.answers) == 1 else self.answers.pop(0)
        return await answer(request)


@contextmanager
def running_service() -> Iterator[WeatherStandin]:
    """A service in a thread of its own."""
    service, app = WeatherStandin(), web.Application()
    app.router.add_get("/{path:.*}", service.serve)
    with serving(app) as service.url:
        yield service
