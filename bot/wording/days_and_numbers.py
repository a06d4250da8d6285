"""Days and numbers with their unit as a keeper says them, the same in every locale."""

from datetime import date, time

from scheduling.colony.stores import Dose
from scheduling.trade import table

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


def clock(at: time) -> str:
    """Write a time of day as ``6:30``."""
    return f"{at.hour}:{at.minute:02d}"


def day_count(days: int) -> str:
    """``1 day``, ``3 days``."""
    return "1 day" if days == 1 else f"{days} days"


def number(amount: float) -> str:
    """Write at most two decimals and no empty ones: ``0.95``, ``2``."""
    return f"{amount:.2f}".rstrip("0").rstrip(".")


def counted(amount: float, one: str, many: str) -> str:
    """Write ``1 frame``, ``0.5 frame``, ``2 frames``, ``0 frames``."""
    return f"{number(amount)} {one if 0 < amount <= 1 else many}"


def percent(share: float) -> str:
    """Write a share of 0 to 1 as ``60%``."""
    return f"{share * 100:.0f}%"


def overfed_words(places: str) -> str:
    """Say that a unit is full, and why no more should be given."""
    frames = counted(table.WELL_STORED.value, "deep frame", "deep frames")
    return f"{places} over {frames} of food: stop, more brings beetles and leaves no room to lay."


def dose_words(dose: Dose | None) -> str:
    """``2 jars 1:1``, or litres where no whole feeder fits; nothing for None."""
    if dose is None:
        return ""
    if dose.feeders is None:
        return f"{number(dose.litres)} l {dose.ratio}"
    return f"{dose.feeders} {'jar' if dose.feeders == 1 else 'jars'} {dose.ratio}"
