"""An Open-Meteo answer as hours of weather.

Its form, as documented by the service: under ``hourly`` parallel lists, ``time`` among them, with
times in the zone that was asked for and without an offset; a value that is not known is null.
Temperature, wind, cloud and humidity are of the instant, rain and sunshine of the hour before it.
"""

from collections.abc import Mapping, Sequence
from datetime import UTC, datetime
from typing import Any

from bot.weather.source import NoWeatherError
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
