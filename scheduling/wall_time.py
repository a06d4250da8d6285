"""From a person's wall clock to instants, across clock changes."""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

_MINUTE = timedelta(minutes=1)


def known_zone(name: str) -> str:
    """Check the name of a time zone, such as ``America/Chicago``, and give it back.

    Raises:
        ValueError: there is no such zone.
    """
    try:
        return ZoneInfo(name).key
    except (KeyError, ValueError, OSError):
        raise ValueError(f"{name!r} is not a time zone; write it like America/Chicago") from None


def local_day(instant: datetime, zone: str) -> date:
    """The local date at an aware instant."""
    return instant.astimezone(ZoneInfo(zone)).date()


def instant_of(day: date, at: time, zone: str) -> datetime:
    """The UTC instant of a wall time on a local date.

    A wall time that comes twice (clocks put back) is the first of the two; one that never comes
    (clocks put forward) is as long after midnight as the clock would have shown, or in the last
    minute of the date if that would be on the next.
    """
    instant = datetime.combine(day, at, tzinfo=ZoneInfo(zone)).astimezone(UTC)
    if local_day(instant, zone) != day:
        # A gap that ends the date, as in Greenland.
        last = end_of_day(day, zone) - _MINUTE
        return last if local_day(last, zone) == day else instant
    return instant


def next_at(after: datetime, at: time, zone: str) -> datetime:
    """The first instant after ``after`` at which the wall time ``at`` begins on a local date."""
    day = local_day(after, zone) - timedelta(days=1)
    while (instant := instant_of(day, at, zone)) <= after:
        day += timedelta(days=1)
    return instant


def end_of_day(day: date, zone: str) -> datetime:
    """The UTC instant at which the local date ends."""
    return instant_of(day + timedelta(days=1), time(0), zone)


def first_after_change(
    now: datetime, next_before: datetime, zone_before: str, at: time, zone: str
) -> datetime:
    """The first morning after the person changed its hour or moved to another zone.

    From now on each local date they live through has exactly one morning, counting the one that
    a date had before. Today's, if it was not told yet and its hour has passed, comes at once,
    however late: who changed it just now is awake, and may not have heard what is due today.

    Args:
        now: aware instant of the change.
        next_before: when the next morning would have come.
        zone_before: the zone that it was in.
        at: the hour from now on.
        zone: the zone from now on.
    """
    first_not_told = local_day(next_before, zone_before)
    return max(now, instant_of(max(first_not_told, local_day(now, zone)), at, zone))
