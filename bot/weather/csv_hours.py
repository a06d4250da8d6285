"""Weather from a CSV file of hours, such as a station at the yard writes."""

import csv
from collections.abc import Iterator, Mapping
from datetime import UTC, date, datetime
from pathlib import Path

from bot.weather.refresh import NoWeatherError
from scheduling.weather.hour import HourOfWeather

READINGS = (
    "temperature_c",
    "wind_kmh",
    "rain_mm",
    "cloud_share",
    "sunshine_minutes",
    "humidity_percent",
)
"""The columns beside ``at``; each may be missing, and an empty cell is not known."""


class CsvHours:
    """One file of hours for every yard, read anew each time.

    ``at`` is the instant at which the hour begins, with its offset: ``2027-05-12T14:00Z``.
    """

    def __init__(self, file: Path) -> None:
        self._file = file

    def hours(
        self,
        latitude: float,  # noqa: ARG002 - the file is of one place
        longitude: float,  # noqa: ARG002
        first: date,
        last: date,
    ) -> list[HourOfWeather]:
        """Give the hours of these dates that stand in the file."""
        try:
            with self._file.open(newline="", encoding="utf-8-sig") as lines:
                found = list(_hours(lines))
        except (OSError, UnicodeDecodeError, csv.Error) as error:
            raise NoWeatherError(f"the file of hours cannot be read: {error}") from None
        return [hour for hour in found if first <= hour.at.astimezone(UTC).date() <= last]

    def close(self) -> None:
        """Nothing is held."""


def _hours(lines: Iterator[str]) -> Iterator[HourOfWeather]:
    rows = csv.DictReader(lines)
    for row in rows:
        try:
            yield _hour(row)
        except (KeyError, TypeError, ValueError):
            raise NoWeatherError(f"line {rows.line_num} of the file of hours is bad") from None


def _hour(row: Mapping[str, str | None]) -> HourOfWeather:
    cells = {name: (row.get(name) or "").strip() for name in READINGS}
    told = {name: float(cell) if cell else None for name, cell in cells.items()}
    return HourOfWeather(datetime.fromisoformat((row["at"] or "").strip()), **told)
