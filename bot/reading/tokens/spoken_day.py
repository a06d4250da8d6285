"""Days as they were said, and what they mean seen from today."""

from dataclasses import dataclass
from datetime import date, timedelta

NEAR = timedelta(days=60)
"""How far a day written as 5/10 may lie away and still be meant."""
FAR = timedelta(days=300)
"""A finding older than this is asked about."""
WEEK = 7
_LONGEST_MONTH = 31


@dataclass(frozen=True)
class SpokenDay:
    """A day as it was said.

    One of the fields is set: ``ago`` days back from today, a ``weekday`` (Monday is 0), or one or
    two ``month_days``, with the ``year`` if it was said, or only the ``month_day`` ("the 10th").
    """

    ago: int | None = None
    weekday: int | None = None
    month_days: tuple[tuple[int, int], ...] = ()
    year: int | None = None
    month_day: int | None = None

    @property
    def lies_ahead(self) -> bool:
        """Whether the words alone may mean a day to come: "friday" may, "yesterday" not."""
        return self.ago is None or self.ago < 0

    def behind(self, today: date) -> date | None:
        """Give the day of something that happened; None if it may be another."""
        if self.ago is not None:
            return today - timedelta(days=self.ago) if self.ago >= 0 else None
        if self.weekday is not None:
            back = (today.weekday() - self.weekday) % WEEK
            return today - timedelta(days=back) if back else None
        if self.month_day is not None:
            return _nearest(today, -1, self.month_day)
        meant = [day for day in self._days(today) if today - FAR <= day <= today]
        return _only(meant, today)

    def ahead(self, today: date) -> date | None:
        """Give the day that something is put off to; None if it may be another."""
        if self.ago is not None:
            return today - timedelta(days=self.ago) if self.ago < 0 else None
        if self.weekday is not None:
            return today + timedelta(days=(self.weekday - today.weekday() - 1) % WEEK + 1)
        if self.month_day is not None:
            return _nearest(today + timedelta(days=1), 1, self.month_day)
        meant = [day for day in self._days(today) if today < day <= today + FAR]
        return _only(meant, today)

    def wanted(self, today: date) -> date | None:
        """Give the day by which something is wanted, which may lie a year ahead."""
        if self.year or not self.month_days:
            return self.ahead(today)
        coming = {_next(today, month, day) for month, day in self.month_days}
        return _only(sorted(day for day in coming if day is not None), today)

    def _days(self, today: date) -> list[date]:
        """Give every reading of a month and day, each in the year nearest to today."""
        days = {
            day for month, number in self.month_days for day in self._dated(month, number, today)
        }
        return sorted(days)

    def _dated(self, month: int, number: int, today: date) -> list[date]:
        years = [self.year] if self.year else [today.year - 1, today.year, today.year + 1]
        days = [day for year in years if (day := _date(year, month, number))]
        return sorted(days, key=lambda day: abs(day - today))[:1]


def _nearest(start: date, step: int, month_day: int) -> date | None:
    """Give the first day of that number within a month's walk from ``start``."""
    walk = (start + timedelta(days=step * away) for away in range(_LONGEST_MONTH))
    return next((day for day in walk if day.day == month_day), None)


def _next(today: date, month: int, day: int) -> date | None:
    """Give the first such day after today; None for a 29th of February that does not come soon."""
    coming = (_date(year, month, day) for year in (today.year, today.year + 1))
    return next((each for each in coming if each is not None and each > today), None)


def _only(days: list[date], today: date) -> date | None:
    if len(days) > 1:
        days = [day for day in days if abs(day - today) <= NEAR]
    return days[0] if len(days) == 1 else None


def _date(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None
