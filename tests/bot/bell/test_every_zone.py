"""In every IANA zone, for ten years, each local date has its morning exactly once.

The reference is dateutil's reading of the same time zone database: dateutil.tz.gettz,
``resolve_imaginary``, dateutil.readthedocs.io.
"""

from datetime import UTC, date, datetime, time, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo, available_timezones

import pytest
from dateutil import tz

from bot.bell.wall_time import instant_of, local_day, next_at

FIRST, LAST = date(2024, 1, 1), date(2033, 12, 31)
DAY = timedelta(days=1)
ZONES = sorted(available_timezones() - {"localtime"})
ORDINARY = time(6, 30)


def changes(zone: str) -> list[date]:
    """The local dates in ten years around which the zone's clock is set."""
    info = ZoneInfo(zone)
    noons = [datetime(2024, 1, 1, 12, tzinfo=UTC) + DAY * n for n in range(3654)]
    offsets = [noon.astimezone(info).utcoffset() for noon in noons]
    pairs = zip(noons, offsets, offsets[1:], strict=False)
    return [noon.astimezone(info).date() for noon, before, then in pairs if before != then]


def times_about(zone: str, day: date) -> list[time]:
    """Morning times in and around the gap or the fold near a date, and ordinary ones."""
    info = ZoneInfo(zone)
    start = datetime.combine(day - DAY, time(0), UTC)
    quarters = [start + timedelta(minutes=30) * n for n in range(3 * 48)]
    walls = [quarter.astimezone(info) for quarter in quarters]
    near = {
        (wall + timedelta(minutes=minutes)).time().replace(fold=0)
        for wall, then in pairwise(walls)
        if wall.utcoffset() != then.utcoffset()
        for minutes in (0, 30, 60)
    }
    return sorted(near | {time(0), ORDINARY, time(23, 59)})


def rung(zone: str, first: date, last: date, at: time) -> list[datetime]:
    """The instants at which a bell rings that is set anew after each morning."""
    instant = next_at(instant_of(first, at, zone) - timedelta(seconds=1), at, zone)
    rings = []
    while instant <= instant_of(last, at, zone):
        rings.append(instant)
        instant = next_at(instant, at, zone)
    return rings


def reference(zone: str, day: date, at: time) -> datetime:
    """The instant of a wall time by dateutil."""
    wall = datetime.combine(day, at, tzinfo=tz.gettz(zone))
    return tz.resolve_imaginary(wall).astimezone(UTC)


def days_from(first: date, last: date) -> list[date]:
    return [first + DAY * n for n in range((last - first).days + 1)]


@pytest.mark.parametrize("letter", sorted({zone[0] for zone in ZONES}))
def test_around_every_change_of_clock_each_date_has_one_morning(letter: str) -> None:
    for zone in (each for each in ZONES if each.startswith(letter)):
        found = changes(zone)
        for change in sorted({*found[:2], *found[-1:]}):
            first, last = change - 2 * DAY, change + 2 * DAY
            for at in times_about(zone, change):
                rings = rung(zone, first, last, at)
                assert rings == [instant_of(day, at, zone) for day in days_from(first, last)]
                assert rings == sorted(set(rings))


@pytest.mark.parametrize("zone", ["America/New_York", "Europe/Berlin", "Australia/Lord_Howe",
                                  "Africa/Casablanca", "America/Santiago", "Pacific/Auckland",
                                  "Asia/Kathmandu"])  # fmt: skip
def test_ten_years_of_mornings_are_those_of_dateutil(zone: str) -> None:
    days = days_from(FIRST, LAST)
    assert date(2028, 2, 29) in days
    assert rung(zone, FIRST, LAST, ORDINARY) == [reference(zone, day, ORDINARY) for day in days]


def test_who_moves_to_another_zone_gets_one_morning_for_each_new_date() -> None:
    moved_at = datetime(2027, 5, 12, 20, tzinfo=UTC)
    before = rung("America/Chicago", date(2027, 5, 10), date(2027, 5, 12), ORDINARY)
    first = next_at(moved_at, ORDINARY, "Pacific/Auckland")

    dates = [local_day(ring, "America/Chicago") for ring in before]
    assert [*dates, local_day(first, "Pacific/Auckland")] == [
        date(2027, 5, 10), date(2027, 5, 11), date(2027, 5, 12), date(2027, 5, 14),
    ]  # fmt: skip
