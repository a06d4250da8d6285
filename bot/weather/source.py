"""What every source of weather does."""

from datetime import date
from typing import Protocol

from scheduling.weather.hour import HourOfWeather


class NoWeatherError(Exception):
    """The source did not answer with weather; the message says why, in one line.

    ``wait_seconds`` is how long it asked to be left alone; None where it did not say.
    """

    def __init__(self, reason: str, wait_seconds: float | None = None) -> None:
        super().__init__(reason)
        self.wait_seconds = wait_seconds


class WeatherSource(Protocol):
    """Gives hours of weather, measured and forecast."""

    def hours(
        self, latitude: float, longitude: float, first: date, last: date
    ) -> list[HourOfWeather]:
        """Give the hours of a place on these UTC dates, both included, as far as there are any.

        Raises:
            NoWeatherError: there is no telling now.
        """

    def close(self) -> None:
        """Let go of what the source holds."""
