"""A morning comes once a local day, whatever the clocks do."""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo, available_timezones

import pytest
from dateutil import tz
from hypothesis import given, settings
from hypothesis import strategies as st

from scheduling.wall_time import end_of_day, instant_of, local_day, next_at

DAYS = st.dates(date(2024, 1, 1), date(2034, 12, 31))
TIMES = st.times().map(lambda t: t.replace(second=0, microsecond=0))
ZONES = st.sampled_from(sorted(available_timezones() - {"localtime"}))


@given(DAYS, TIMES, ZONES)
@settings(max_examples=300, deadline=None)
def test_each_local_day_has_one_morning_and_they_follow_each_other(
    day: date, at: time, zone: str
) -> None:
    first, second = instant_of(day, at, zone), instant_of(day + timedelta(days=1), at, zone)

    assert next_at(first - timedelta(seconds=1), at, zone) == first
    assert next_at(first, at, zone) == second


@given(DAYS, TIMES, st.sampled_from(["America/New_York", "Europe/Berlin", "Australia/Lord_Howe"]))
@settings(max_examples=200, deadline=None)
def test_a_morning_agrees_with_dateutil(day: date, at: time, zone: str) -> None:
    wall = datetime.combine(day, at, tzinfo=tz.gettz(zone))

    assert instant_of(day, at, zone) == tz.resolve_imaginary(wall).astimezone(UTC)


@pytest.mark.parametrize(
    ("day", "at", "expected"),
    [
        (date(2027, 3, 14), time(2, 30), "2027-03-14T03:30:00-04:00"),
        (date(2027, 11, 7), time(1, 30), "2027-11-07T01:30:00-04:00"),
        (date(2028, 2, 29), time(6, 30), "2028-02-29T06:30:00-05:00"),
        (date(2027, 12, 31), time(6, 30), "2027-12-31T06:30:00-05:00"),
    ],
)
def test_a_morning_in_the_gap_the_fold_and_on_odd_days(day: date, at: time, expected: str) -> None:
    instant = instant_of(day, at, "America/New_York")

    assert instant.astimezone(ZoneInfo("America/New_York")).isoformat() == expected


def test_the_local_day_is_the_persons_not_utcs() -> None:
    late = datetime(2027, 5, 13, 2, 0, tzinfo=UTC)

    assert local_day(late, "America/Chicago") == date(2027, 5, 12)
    assert end_of_day(date(2027, 5, 12), "America/Chicago") == datetime(2027, 5, 13, 5, tzinfo=UTC)
