"""Weather over HTTP from Open-Meteo, or from any server that answers in the same form.

The form, as documented by the service: under ``hourly`` parallel lists, ``time`` among them, with
times in the zone that was asked for and without an offset; a value that is not known is null.
Temperature, wind, cloud and humidity are of the instant, rain and sunshine of the hour before it.
"""

import json
import time
from collections.abc import Callable, Mapping, Sequence
from datetime import UTC, date, datetime
from typing import Any

import httpx
from tenacity import Retrying, retry_if_exception_type, stop_after_attempt, wait_fixed

from bot.weather.refresh import NoWeatherError
from scheduling.weather.hour import HourOfWeather

UNITS: Mapping[str, str] = {
    "temperature_2m": "\N{DEGREE SIGN}C",
    "wind_speed_10m": "km/h",
    "precipitation": "mm",
    "cloud_cover": "%",
    "sunshine_duration": "s",
    "relative_humidity_2m": "%",
}
"""What is asked for, and in which unit it must come."""

Numbers = Sequence[float | None]


def hours_in(answer: Any) -> list[HourOfWeather]:
    """Read the hours out of an answer.

    Raises:
        NoWeatherError: it has another form, or its numbers have other units.
    """
    try:
        _check_units(answer["hourly_units"])
        times = [_instant(text) for text in answer["hourly"]["time"]]
        columns = {name: _numbers(answer["hourly"][name], len(times)) for name in UNITS}
    except (KeyError, TypeError, ValueError) as error:
        raise NoWeatherError(f"the answer has another form: {error!r}"[:120]) from None
    return [_hour(at, columns, place) for place, at in enumerate(times)]


def _check_units(told: Mapping[str, str]) -> None:
    for name, unit in UNITS.items():
        if told[name] != unit:
            raise ValueError(f"{name} is not in {unit}")


def _instant(text: str) -> datetime:
    return datetime.strptime(text, "%Y-%m-%dT%H:%M").replace(tzinfo=UTC)


def _numbers(told: Sequence[object], count: int) -> Numbers:
    if len(told) != count:
        raise ValueError("its lists are not of one length")
    return [_number(each) for each in told]


def _number(told: object) -> float | None:
    if told is None:
        return None
    if isinstance(told, bool) or not isinstance(told, int | float):
        raise TypeError("a value is not a number")
    return float(told)


def _hour(at: datetime, columns: Mapping[str, Numbers], place: int) -> HourOfWeather:
    def now(name: str) -> float | None:
        return columns[name][place]

    def of_the_hour(name: str) -> float | None:
        following = place + 1
        return columns[name][following] if following < len(columns[name]) else None

    return HourOfWeather(
        at,
        temperature_c=now("temperature_2m"),
        wind_kmh=now("wind_speed_10m"),
        rain_mm=of_the_hour("precipitation"),
        cloud_share=_times(now("cloud_cover"), 1 / 100),
        sunshine_minutes=_times(of_the_hour("sunshine_duration"), 1 / 60),
        humidity_percent=now("relative_humidity_2m"),
    )


def _times(number: float | None, factor: float) -> float | None:
    return None if number is None else number * factor


TRIES = 2
PAUSE_SECONDS = 2.0
"""How long is waited before a further try."""
GAP_SECONDS = 1.0
"""The least time between two questions, so as not to press a free service."""
LONGEST_ANSWER = 2_000_000
"""Bytes; two months of hours take about fifty thousand."""
LONGEST_WAIT_SECONDS = 10.0
"""An answer that trickles in is given up after this."""
DECIMALS = 2
"""A hundredth of a degree is about a kilometre: near enough, and it gives no hive away."""


class OpenMeteo:
    """Asks one server, slowly.

    Args:
        address: the server's address, without its path.
        key: the key of a paid account, if there is one.
        timeout_seconds: how long to wait for a connection, and for each part of an answer.
        pause: waits so many seconds.
    """

    def __init__(
        self,
        address: str,
        key: str | None = None,
        timeout_seconds: float = 5.0,
        pause: Callable[[float], None] = time.sleep,
    ) -> None:
        self._client = httpx.Client(base_url=address, timeout=timeout_seconds)
        self._key = key
        self._pause = pause
        self._asked_at = float("-inf")

    def hours(
        self, latitude: float, longitude: float, first: date, last: date
    ) -> list[HourOfWeather]:
        """Give the hours of a place, asked for to about a kilometre."""
        question = {
            "latitude": f"{latitude:.{DECIMALS}f}",
            "longitude": f"{longitude:.{DECIMALS}f}",
            "hourly": ",".join(UNITS),
            "timezone": "UTC",
            "start_date": first.isoformat(),
            "end_date": last.isoformat(),
            **({"apikey": self._key} if self._key is not None else {}),
        }
        return hours_in(self._answer(question))

    def close(self) -> None:
        """Close the connections."""
        self._client.close()

    def _answer(self, question: dict[str, str]) -> Any:
        """Ask, and ask again after a pause where the fault may pass by itself."""
        retrying = Retrying(
            sleep=self._pause,
            stop=stop_after_attempt(TRIES),
            wait=wait_fixed(PAUSE_SECONDS),
            retry=retry_if_exception_type(_PassingError),
            reraise=True,
        )
        try:
            return retrying(self._ask, question)
        except _PassingError as error:
            raise NoWeatherError(str(error)) from None

    def _ask(self, question: dict[str, str]) -> Any:
        self._keep_the_gap()
        try:
            with self._client.stream("GET", "/v1/forecast", params=question) as response:
                body = _body(response)
        except httpx.TransportError as error:
            raise _PassingError(f"no answer: {type(error).__name__}") from None
        _refuse_errors(response, body)
        return _from_json(body)

    def _keep_the_gap(self) -> None:
        early = self._asked_at + GAP_SECONDS - time.monotonic()
        if early > 0:
            self._pause(early)
        self._asked_at = time.monotonic()


class _PassingError(Exception):
    """A fault that may be over in a few seconds."""


def _body(response: httpx.Response) -> bytes:
    until = time.monotonic() + LONGEST_WAIT_SECONDS
    body = b""
    for part in response.iter_bytes():
        body += part
        if len(body) > LONGEST_ANSWER:
            raise NoWeatherError("the answer is too long")
        if time.monotonic() > until:
            raise NoWeatherError("the answer takes too long")
    return body


def _refuse_errors(response: httpx.Response, body: bytes) -> None:
    if response.status_code == httpx.codes.TOO_MANY_REQUESTS:
        raise NoWeatherError("asked too often", _seconds(response.headers.get("retry-after")))
    if response.is_server_error:
        raise _PassingError(f"the server is at fault: {response.status_code}")
    if not response.is_success:
        raise NoWeatherError(f"refused with {response.status_code}{_reason(body)}")


def _seconds(header: str | None) -> float | None:
    return float(header) if header is not None and header.isdecimal() else None


def _reason(body: bytes) -> str:
    """Give the server's own reason, in one short line."""
    try:
        reason = json.loads(body)["reason"]
    except (ValueError, KeyError, TypeError):
        return ""
    return f": {' '.join(str(reason).split())[:120]}"


def _from_json(body: bytes) -> Any:
    try:
        return json.loads(body)
    except ValueError:
        raise _PassingError("the answer is cut off or no JSON") from None
