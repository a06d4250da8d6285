"""Days on which a small unit may be opened: the limits are from memory or ours."""

from dataclasses import replace

import pytest

from scheduling.weather.day import DayOfWeather
from scheduling.weather.fit_hours import Unfit
from scheduling.weather.hour import HourOfWeather
from tests.scheduling.weather.hours_told import (
    EVEN_DAY,
    FINE,
    GREENWICH,
    days_of_weather,
    whole_day,
)


def day_of(hours: list[HourOfWeather]) -> DayOfWeather:
    return days_of_weather(hours, GREENWICH)[EVEN_DAY]


@pytest.mark.parametrize(
    ("like", "unfit"),
    [
        (FINE, None),
        (replace(FINE, temperature_c=15), None),
        (replace(FINE, temperature_c=14), Unfit.COLD),
        (replace(FINE, wind_kmh=31), Unfit.WINDY),
        (replace(FINE, rain_mm=1), Unfit.WET),
        (replace(FINE, rain_mm=1, temperature_c=5), Unfit.WET),
    ],
)
def test_what_forbids_opening(like: HourOfWeather, unfit: Unfit | None) -> None:
    assert day_of(whole_day(like)).unfit is unfit


def test_one_mild_hour_at_noon_is_enough_for_a_visit() -> None:
    cold = replace(FINE, temperature_c=9)
    day = [replace(FINE if hour.at.hour == 13 else cold, at=hour.at) for hour in whole_day()]
    assert day_of(day).opening_hours == pytest.approx(1)
    assert day_of(day).unfit is None


def test_a_mild_night_is_no_time_to_open() -> None:
    cold = replace(FINE, temperature_c=9)
    day = [replace(FINE if hour.at.hour < 6 else cold, at=hour.at) for hour in whole_day()]
    assert day_of(day).unfit is Unfit.COLD


def test_a_day_of_unknown_warmth_forbids_nothing() -> None:
    unknown = replace(FINE, temperature_c=None)
    assert day_of(whole_day(unknown)) == DayOfWeather()


def test_a_day_has_its_warmest_and_its_mean() -> None:
    day = [replace(FINE, at=hour.at, temperature_c=hour.at.hour) for hour in whole_day()]
    assert (day_of(day).warmest_c, day_of(day).mean_c) == (23, 11.5)
