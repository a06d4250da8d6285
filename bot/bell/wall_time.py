"""From a person's wall clock to instants, across clock changes."""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo


def local_day(instant: datetime, zone: str) -> date:
    """The local date at an aware instant."""
    return instant.astimezone(ZoneInfo(zone)).date()


def instant_of(day: date, at: time, zone: str) -> datetime:
    """The UTC instant of a wall time on a local date.

    A wall time that comes twice (clocks put back) is the first of the two; one that never comes
    (clocks put forward) is as long after midnight as the clock would have shown.
    """
    return datetime.combine(day, at, tzinfo=ZoneInfo(zone)).astimezone(UTC)


def next_at(after: datetime, at: time, zone: str) -> datetime:
    """The first instant after ``after`` at which the wall time ``at`` begins on a local date."""
    day = local_day(after, zone) - timedelta(days=1)
    while (instant := instant_of(day, at, zone)) <= after:
        day += timedelta(days=1)
    return instant


def end_of_day(day: date, zone: str) -> datetime:
    """The UTC instant at which the local date ends."""
    return instant_of(day + timedelta(days=1), time(0), zone)
