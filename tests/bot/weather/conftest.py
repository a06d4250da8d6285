"""The weather service of the tests, and a client of it that does not wait."""

from collections.abc import Iterator

import pytest

from bot.weather.open_meteo import OpenMeteo
from deploy.standins.weather_standin import WeatherStandin, running_service


@pytest.fixture
def service() -> Iterator[WeatherStandin]:
    with running_service() as service:
        yield service


@pytest.fixture
def pauses() -> list[float]:
    """How long the client would have waited, each time."""
    return []


@pytest.fixture
def client(service: WeatherStandin, pauses: list[float]) -> Iterator[OpenMeteo]:
    client = OpenMeteo(service.url, timeout_seconds=0.5, pause=pauses.append)
    yield client
    client.close()
