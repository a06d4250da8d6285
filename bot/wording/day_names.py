"""Dates as a keeper says them, the same in every locale."""

from datetime import date

_WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_NEAR = {-1: "yesterday", 0: "today", 1: "tomorrow"}

_SAME_WEEKDAY = 7
"""From this many days on a weekday alone could mean another week."""

_ANOTHER_YEAR = 183
"""From this many days on the year is written too."""


def weekday(day: date) -> str:
    """``Thu``."""
    return _WEEKDAYS[day.weekday()]


def weekday_name(number: int) -> str:
    """``Mon`` for 0."""
    return _WEEKDAYS[number]


def full_day(day: date) -> str:
    """``Thu 14 May``."""
    return f"{weekday(day)} {day.day} {_MONTHS[day.month - 1]}"


def day_words(day: date, today: date) -> str:
    """``today``, ``tomorrow``, ``Thu`` within six days either way, else ``Thu 14 May``.

    A day half a year off or more carries its year.
    """
    away = (day - today).days
    if away in _NEAR:
        return _NEAR[away]
    if abs(away) < _SAME_WEEKDAY:
        return weekday(day)
    if abs(away) < _ANOTHER_YEAR:
        return full_day(day)
    return f"{full_day(day)} {day.year}"


def day_count(days: int) -> str:
    """``1 day``, ``3 days``."""
    return "1 day" if days == 1 else f"{days} days"
