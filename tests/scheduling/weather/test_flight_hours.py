"""Hours fit for mating flights.

Warm (above 20 C), blue or partly cloudy, little wind: COLOSS BEEBOOK, behavioural studies 13.2,
http://coloss.org/beebook/I/behavioural-studies/13/2. From 11 to 16 o'clock: Buechler et al. 2013,
COLOSS BEEBOOK, queen rearing 2.2.2, http://coloss.org/beebook/I/queen-rearing/2/2/2. The limit of
wind is from memory; those of rain and cloud are ours.
"""

from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduling.weather.fit_hours import could_fly
from scheduling.weather.hour import HourOfWeather, without_faults
from tests.scheduling.weather.hours_told import (
    EVEN_DAY,
    FINE,
    GREENWICH,
    at,
    flight_hours,
    whole_day,
)

NAMES = ("temperature_c", "wind_kmh", "rain_mm", "cloud_share", "sunshine_minutes")


def hours_on_the_day(hours: list[HourOfWeather]) -> float | None:
    return flight_hours(hours, GREENWICH).get(EVEN_DAY)


def test_a_fine_day_has_the_five_hours_from_eleven_to_four() -> None:
    assert hours_on_the_day(whole_day()) == pytest.approx(5)


def test_warmth_in_the_evening_is_of_no_use() -> None:
    cold = replace(FINE, temperature_c=12)
    day = [replace(cold if hour.at.hour < 17 else FINE, at=hour.at) for hour in whole_day()]
    assert hours_on_the_day(day) == 0


def test_sun_from_two_o_clock_leaves_two_hours() -> None:
    grey = replace(FINE, sunshine_minutes=0, cloud_share=1)
    day = [replace(grey if hour.at.hour < 14 else FINE, at=hour.at) for hour in whole_day()]
    assert hours_on_the_day(day) == pytest.approx(2, abs=0.02)


@pytest.mark.parametrize(
    ("change", "fit"),
    [
        ({"temperature_c": 20}, True),
        ({"temperature_c": 19.9}, False),
        ({"temperature_c": 41}, False),
        ({"wind_kmh": 24}, True),
        ({"wind_kmh": 25}, False),
        ({"rain_mm": 0.1}, True),
        ({"rain_mm": 0.4}, False),
        ({"cloud_share": 1.0}, True),
        ({"sunshine_minutes": 5}, False),
        ({"sunshine_minutes": None, "cloud_share": 1.0}, False),
        ({"sunshine_minutes": None, "cloud_share": 0.5}, True),
        ({"sunshine_minutes": None, "cloud_share": None}, True),
        ({"temperature_c": None}, None),
        ({"wind_kmh": None}, None),
        ({"rain_mm": None}, None),
        ({"rain_mm": None, "temperature_c": 10}, False),
    ],
)
def test_what_an_hour_must_be(change: dict[str, Any], fit: bool | None) -> None:
    assert could_fly(replace(FINE, **change)) is fit


def test_a_day_of_which_nothing_is_known_is_not_a_day_without_flight() -> None:
    unknown = [HourOfWeather(hour.at) for hour in whole_day()]
    assert EVEN_DAY not in flight_hours(unknown, GREENWICH)
    assert flight_hours([], GREENWICH) == {}


def test_one_missing_hour_of_five_is_taken_to_be_like_the_rest() -> None:
    day = [hour for hour in whole_day() if hour.at.hour != 13]
    assert hours_on_the_day(day) == pytest.approx(5)


def test_with_two_of_five_missing_the_day_is_not_known() -> None:
    day = [hour for hour in whole_day() if hour.at.hour not in {12, 13}]
    assert hours_on_the_day(day) is None


def test_of_two_reports_of_an_hour_the_later_told_counts() -> None:
    forecast = whole_day(replace(FINE, temperature_c=12))
    assert hours_on_the_day([*forecast, *whole_day()]) == pytest.approx(5)


def test_what_no_weather_can_be_is_left_out() -> None:
    told = replace(FINE, wind_kmh=1686.6, temperature_c=float("nan"), rain_mm=-1, cloud_share=30)
    left = without_faults(told)
    assert (left.wind_kmh, left.temperature_c, left.rain_mm, left.cloud_share) == (None,) * 4
    assert left.humidity_percent == FINE.humidity_percent


def test_an_hour_without_a_zone_is_refused() -> None:
    with pytest.raises(ValueError, match="aware"):
        HourOfWeather(at(3).replace(tzinfo=None))


READINGS = st.one_of(st.none(), st.floats(-50, 120))


@st.composite
def told_days(draw: st.DrawFn) -> list[HourOfWeather]:
    return [
        HourOfWeather(at(hour), **{name: draw(READINGS) for name in NAMES}) for hour in range(24)
    ]


@given(hours=told_days())
def test_there_are_never_more_hours_than_the_span_has_nor_fewer_than_none(
    hours: list[HourOfWeather],
) -> None:
    for count in flight_hours(hours, GREENWICH).values():
        assert 0 <= count <= 5 + 1e-6


@given(hours=told_days(), warmer=st.floats(0, 5))
def test_wind_can_only_take_hours_away(hours: list[HourOfWeather], warmer: float) -> None:
    stormy = [
        hour if hour.wind_kmh is None else replace(hour, wind_kmh=abs(hour.wind_kmh) + warmer)
        for hour in hours
    ]
    calm = [
        hour if hour.wind_kmh is None else replace(hour, wind_kmh=abs(hour.wind_kmh))
        for hour in hours
    ]
    before, after = flight_hours(calm, GREENWICH), flight_hours(stormy, GREENWICH)
    assert before.keys() == after.keys()
    assert all(after[day] <= before[day] + 1e-9 for day in before)


def test_hours_are_told_by_the_yard_s_date() -> None:
    """At Apia, thirteen hours ahead of Greenwich, the day's flying is over before UTC's begins."""
    from scheduling.weather.hour import Site

    apia = Site(-13.8, -171.8, "Pacific/Apia")
    start = at(0) - timedelta(hours=13)
    hours = [replace(FINE, at=start + timedelta(hours=hour)) for hour in range(24)]
    assert flight_hours(hours, apia) == {EVEN_DAY: pytest.approx(5)}
