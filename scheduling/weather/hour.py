"""One hour of weather at a place, as far as it is known."""

import math
from dataclasses import dataclass, replace
from datetime import datetime

from scheduling.trade import table


@dataclass(frozen=True)
class HourOfWeather:
    """The weather of the hour that begins ``at``. What is not known is None, never zero.

    Attributes:
        at: the instant at which the hour begins (aware).
        temperature_c: air temperature in the shade, degrees Celsius.
        wind_kmh: mean wind, kilometres per hour.
        rain_mm: rain, snow and hail that fell in the hour, millimetres of water.
        cloud_share: share of the sky under cloud, 0 to 1.
        sunshine_minutes: minutes of sun in the hour.
        humidity_percent: relative humidity, per cent.

    Raises:
        ValueError: the instant is not aware.

    """

    at: datetime
    temperature_c: float | None = None
    wind_kmh: float | None = None
    rain_mm: float | None = None
    cloud_share: float | None = None
    sunshine_minutes: float | None = None
    humidity_percent: float | None = None

    def __post_init__(self) -> None:
        if self.at.utcoffset() is None:
            raise ValueError("an hour of weather begins at an aware instant")


def without_faults(hour: HourOfWeather) -> HourOfWeather:
    """Leave out what no weather can be, such as a wind of 1,700 km/h; the rest stays."""
    return replace(
        hour,
        temperature_c=_within(
            hour.temperature_c, table.COLDEST_READING.value, table.HOTTEST_READING.value
        ),
        wind_kmh=_within(hour.wind_kmh, 0, table.WINDIEST_READING.value),
        rain_mm=_within(hour.rain_mm, 0, table.WETTEST_READING.value),
        cloud_share=_within(hour.cloud_share, 0, 1),
        sunshine_minutes=_within(hour.sunshine_minutes, 0, 60),
        humidity_percent=_within(hour.humidity_percent, 0, 100),
    )


def _within(reading: float | None, least: float, most: float) -> float | None:
    if reading is None or not math.isfinite(reading):
        return None
    return reading if least <= reading <= most else None
