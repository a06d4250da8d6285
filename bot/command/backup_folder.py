"""A folder of backups by day, and which of them are kept: more of the newer ones."""

import re
from collections.abc import Callable, Collection, Hashable
from datetime import date
from pathlib import Path

DAYS, WEEKS, MONTHS = 7, 5, 12
"""Of so many days, weeks and months the newest backup is kept."""

_NAMED = re.compile(r"yardbell-(\d{4}-\d{2}-\d{2})\.backup")


def file_of(folder: Path, day: date) -> Path:
    """Where the backup of a day lies."""
    return folder / f"yardbell-{day.isoformat()}.backup"


def thin(folder: Path) -> list[Path]:
    """Take away the backups that need not be kept; gives those. Other files are left alone."""
    days = {day: file for file in folder.iterdir() if (day := _day_of(file)) is not None}
    gone = [days[day] for day in sorted(days.keys() - days_kept(days))]
    for file in gone:
        file.unlink()
    return gone


def days_kept(days: Collection[date]) -> set[date]:
    """Give the days whose backups are kept.

    Counted by the backups that there are and not by the calendar, so that after a year switched
    off none is missed.
    """
    newest_first = sorted(days, reverse=True)
    return {
        day
        for span, most in ((_day, DAYS), (_week, WEEKS), (_month, MONTHS))
        for day in _newest_of_each(newest_first, span)[:most]
    }


def _newest_of_each(newest_first: list[date], span: Callable[[date], Hashable]) -> list[date]:
    newest: dict[Hashable, date] = {}
    for day in newest_first:
        newest.setdefault(span(day), day)
    return list(newest.values())


def _day(day: date) -> Hashable:
    return day


def _week(day: date) -> Hashable:
    return day.isocalendar()[:2]


def _month(day: date) -> Hashable:
    return day.year, day.month


def _day_of(file: Path) -> date | None:
    found = _NAMED.fullmatch(file.name)
    if found is None:
        return None
    try:
        return date.fromisoformat(found[1])
    except ValueError:
        return None
