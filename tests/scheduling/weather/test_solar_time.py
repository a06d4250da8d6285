"""The sun's clock, against what any almanac says of the equation of time (from memory).

The sun is latest about 11 February (14 min 15 s behind the clock), earliest about 3 November
(16 min 25 s ahead), and with the clock about 15 April, 13 June, 1 September and 25 December.
"""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduling.weather.hour import (
    Site,
    Span,
    between_solar_hours,
    solar_hour,
    solar_noon,
)
from tests.scheduling.weather.hours_told import GREENWICH

DAYS = st.dates(date(2020, 1, 1), date(2040, 12, 31))
ZONES = st.sampled_from(
    [
        ("Pacific/Auckland", 174.8),
        ("Pacific/Apia", -171.8),
        ("America/Chicago", -93.1),
        ("Europe/Madrid", -8.5),
        ("Asia/Shanghai", 76.0),
        ("Asia/Kolkata", 77.2),
    ]
)


@pytest.mark.parametrize(
    ("day", "seconds_late"),
    [
        (date(2027, 2, 11), 14 * 60 + 15),
        (date(2027, 4, 15), 0),
        (date(2027, 6, 13), 0),
        (date(2027, 9, 1), 0),
        (date(2027, 11, 3), -(16 * 60 + 25)),
        (date(2027, 12, 25), 0),
    ],
)
def test_the_sun_is_as_late_or_early_as_the_almanac_says(day: date, seconds_late: int) -> None:
    clock_noon = datetime(day.year, day.month, day.day, 12, tzinfo=UTC)
    late = (solar_noon(day, GREENWICH) - clock_noon).total_seconds()
    assert late == pytest.approx(seconds_late, abs=30)


def test_an_hour_of_longitude_is_an_hour_of_sun() -> None:
    """Fifteen degrees to the hour, by the turn of the earth."""
    noon = datetime(2027, 4, 15, 12, tzinfo=UTC)
    assert solar_hour(noon, 0) == pytest.approx(12, abs=0.02)
    assert solar_hour(noon, 15) == pytest.approx(13, abs=0.02)
    assert solar_hour(noon, -90) == pytest.approx(6, abs=0.02)


def test_in_the_west_of_spain_the_queens_fly_by_a_late_clock() -> None:
    """Central European summer time at 8.5 degrees west: noon is over two and a half hours late."""
    span = between_solar_hours(date(2027, 6, 13), Site(43.0, -8.5, "Europe/Madrid"), 11, 16)
    clock = [edge.astimezone(ZoneInfo("Europe/Madrid")) for edge in (span.start, span.end)]
    assert [(edge.hour, edge.minute) for edge in clock] == [(13, 34), (18, 34)]


@given(day=DAYS, zone=ZONES)
def test_noon_falls_on_the_date_it_was_asked_for(day: date, zone: tuple[str, float]) -> None:
    site = Site(40.0, zone[1], zone[0])
    noon = solar_noon(day, site)
    assert noon.astimezone(ZoneInfo(zone[0])).date() == day
    assert solar_hour(noon, site.longitude) == pytest.approx(12, abs=0.01)


def test_part_of_an_hour_lies_in_a_span() -> None:
    start = datetime(2027, 4, 15, 11, tzinfo=UTC)
    span = Span(start + timedelta(minutes=15), start + timedelta(hours=5))
    shares = [span.overlap(start + timedelta(hours=hour)) for hour in range(-1, 6)]
    assert shares == [0, 0.75, 1, 1, 1, 1, 0]
