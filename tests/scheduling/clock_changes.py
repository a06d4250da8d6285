"""When the clocks of the IANA zones are set, found by asking zoneinfo and nothing of ours."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo, available_timezones

FIRST, LAST = date(2026, 1, 1), date(2036, 12, 31)
DAY, MINUTE, SECOND = timedelta(days=1), timedelta(minutes=1), timedelta(seconds=1)
STEP = 5 * DAY
"""Closer than twice this no clock is set twice, which a test holds."""

_BEGIN = datetime.combine(FIRST, time(0), UTC) - STEP
_END = datetime.combine(LAST, time(0), UTC) + 2 * STEP


@dataclass(frozen=True)
class Change:
    """A clock is set: when, and the offsets from UTC before and after."""

    at: datetime
    before: timedelta
    after: timedelta

    @property
    def day(self) -> date:
        """The local date on which the old clock stands at that instant."""
        return (self.at + self.before).date()

    def shown(self, day: date, wall: time) -> datetime | None:
        """The first instant, near this change, at which the clock shows a time on a date."""
        told = datetime.combine(day, wall, UTC)
        if (early := told - self.before) < self.at:
            return early
        return late if (late := told - self.after) >= self.at else None

    def times(self) -> list[time]:
        """The times of day in and around the gap or the fold, to the minute, and others."""
        edges = sorted((self.at + self.before, self.at + self.after))
        about = [edge + MINUTE * n for edge in edges for n in (-1, 0, 1)]
        about.append(edges[0] + (edges[1] - edges[0]) / 2)
        return sorted({each.time() for each in about} | {time(0), time(6, 30), time(23, 59)})


@dataclass(frozen=True)
class ClockOfYears:
    """What a clock shows over the years: its offset at first, and each change."""

    offset: timedelta
    changes: tuple[Change, ...]

    def quiet(self) -> Iterator[tuple[date, date, timedelta]]:
        """First and last date of each stretch that is two days from any change, and its offset."""
        edges = [FIRST - 3 * DAY, *(change.day for change in self.changes), LAST + 3 * DAY]
        offsets = [self.offset, *(change.after for change in self.changes)]
        for (before, after), offset in zip(pairwise(edges), offsets, strict=True):
            first, last = max(before + 3 * DAY, FIRST), min(after - 3 * DAY, LAST)
            if first <= last:
                yield first, last, offset


def clocks() -> dict[ClockOfYears, list[str]]:
    """Every clock that some IANA zone has in these years, with the zones that have it."""
    found: dict[ClockOfYears, list[str]] = {}
    for zone in sorted(available_timezones() - {"localtime"}):
        found.setdefault(_clock(ZoneInfo(zone)), []).append(zone)
    return found


def _clock(zone: ZoneInfo) -> ClockOfYears:
    looks = [_BEGIN + STEP * n for n in range((_END - _BEGIN) // STEP + 1)]
    offsets = [_offset(zone, look) for look in looks]
    spans = zip(pairwise(looks), pairwise(offsets), strict=True)
    changes = (_change(zone, *looked) for looked, (was, then) in spans if was != then)
    return ClockOfYears(offsets[0], tuple(changes))


def _change(zone: ZoneInfo, early: datetime, late: datetime) -> Change:
    before, after = _offset(zone, early), _offset(zone, late)
    while late - early > SECOND:
        middle = early + (late - early) // 2
        middle = middle.replace(microsecond=0)
        if _offset(zone, middle) == before:
            early = middle
        else:
            late = middle
    return Change(late, before, after)


def _offset(zone: ZoneInfo, at: datetime) -> timedelta:
    offset = at.astimezone(zone).utcoffset()
    assert offset is not None
    return offset
