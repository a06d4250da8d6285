"""In every IANA zone, for eleven years, each local date has its morning exactly once.

What a clock shows depends on its offsets only, so zones with the same clock in these years are
looked at once: around each change day by day and at every minute that matters, and between two
changes, where the clock is one of a fixed offset, at the stretch's ends and its special days.

The references read the same time zone database without us: the standard library's zoneinfo, and
dateutil.tz (``resolve_imaginary``, dateutil.readthedocs.io).
"""

from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta
from functools import cache
from itertools import pairwise
from zoneinfo import available_timezones

import pytest
from dateutil import tz

from scheduling.wall_time import instant_of, local_day, next_at
from tests.scheduling.clock_changes import DAY, FIRST, LAST, MINUTE, STEP, Change, ClockOfYears
from tests.scheduling.clock_changes import clocks as every_clock

TIMES = (time(0), time(6, 30), time(12), time(23, 59))
FIXED = ("UTC", "Asia/Kathmandu", "America/Phoenix", "Pacific/Kiritimati", "Pacific/Pago_Pago")


@cache
def clocks() -> dict[ClockOfYears, list[str]]:
    return every_clock()


@cache
def zone_of_each_change() -> dict[Change, str]:
    """Every way in which a clock is set in these years, with a zone that sets it so."""
    return {change: zones[0] for clock, zones in clocks().items() for change in clock.changes}


def rung(zone: str, first: date, last: date, at: time) -> list[datetime]:
    """The instants at which a bell rings that is set anew after each morning."""
    instant = next_at(instant_of(first, at, zone) - timedelta(seconds=1), at, zone)
    rings = []
    while instant <= instant_of(last, at, zone):
        rings.append(instant)
        instant = next_at(instant, at, zone)
    return rings


def days_from(first: date, last: date) -> list[date]:
    return [first + DAY * n for n in range((last - first).days + 1)]


def expected(change: Change, day: date, at: time) -> datetime:
    """The first instant that shows the time; if none does, as long after midnight as it says."""
    if (shown := change.shown(day, at)) is not None:
        return shown
    never = datetime.combine(day, at, UTC) - change.before
    if (never + change.after).date() == day:
        return never
    # The gap ends the day, of which the last minute is the one before the change.
    return change.at - MINUTE


def test_no_zone_is_left_out_and_no_clock_is_set_twice_within_days() -> None:
    zones = [zone for zones in clocks().values() for zone in zones]

    assert set(zones) == available_timezones() - {"localtime"}
    assert len(zones) == len(set(zones)) > 400
    assert len(zone_of_each_change()) > 300
    for clock in clocks():
        assert all(then.at - change.at > 2 * STEP for change, then in pairwise(clock.changes))


def test_around_every_change_of_a_clock_each_date_has_one_morning() -> None:
    for change, zone in zone_of_each_change().items():
        first, last = change.day - 2 * DAY, change.day + 2 * DAY
        days = days_from(first, last)
        for at in change.times():
            rings = rung(zone, first, last, at)
            assert rings == [expected(change, day, at) for day in days], (zone, at)
            assert [local_day(ring, zone) for ring in rings] == days, (zone, at)


def test_on_the_day_of_a_change_dateutil_says_the_same() -> None:
    for change, zone in zone_of_each_change().items():
        info = tz.gettz(zone)
        for at in change.times():
            wall = tz.resolve_imaginary(datetime.combine(change.day, at, tzinfo=info))
            if wall.date() == change.day:
                assert instant_of(change.day, at, zone) == wall.astimezone(UTC), (zone, at)


def special(first: date, last: date) -> Iterator[tuple[date, date]]:
    """Pairs of neighbouring dates of a stretch: its ends, and about leap days and years' ends."""
    for day in {first, last - DAY}:
        yield day, day + DAY
    for year in range(first.year, last.year + 1):
        leap = year % 4 == 0
        turns = [date(year, 2, 28), date(year, 12, 30), date(year, 12, 31)]
        for day in [*turns, date(year, 2, 29)] if leap else turns:
            if first <= day < last:
                yield day, day + DAY


def test_between_changes_each_morning_is_followed_by_the_next_dates() -> None:
    for clock, zones in clocks().items():
        for number, (first, last, offset) in enumerate(clock.quiet()):
            at = TIMES[number % len(TIMES)]
            for day, then in special(first, last):
                ring, following = (datetime.combine(d, at, UTC) - offset for d in (day, then))
                assert instant_of(day, at, zones[0]) == ring
                assert next_at(ring, at, zones[0]) == following


@pytest.mark.parametrize("zone", FIXED)
def test_by_a_clock_never_set_each_date_of_all_years_has_one_morning(zone: str) -> None:
    (offset,) = {clock.offset for clock, zones in clocks().items() if zone in zones}
    days = days_from(FIRST, LAST)
    at = TIMES[FIXED.index(zone) % len(TIMES)]

    assert date(2028, 2, 29) in days
    assert rung(zone, FIRST, LAST, at) == [datetime.combine(day, at, UTC) - offset for day in days]
