"""Limits of what an entry may say, so that none breaks the calendar of the whole crew.

They are wide: nothing that happens in a yard is beyond them, only slips and damaged files are.
What a person types is held to narrower ones, and asked about.
"""

from collections.abc import Iterator
from dataclasses import fields
from datetime import datetime

from scheduling.entries import Entry
from scheduling.trade.limits import FIRST_DAY, FURTHEST_AHEAD, LARGEST_NUMBER, OLDEST_WHEN_PLACED
from scheduling.values import CellAge, PutOff, VirginAge


def faults_of_entry(entry: Entry, now: datetime) -> Iterator[str]:
    """Name what of an entry lies beyond the limits.

    Args:
        entry: the entry.
        now: the aware instant at which it comes in.
    """
    last = FURTHEST_AHEAD.after(now.date())
    days = {"on": entry.on, "recorded_at": entry.recorded_at.date()}
    if isinstance(entry.value, PutOff):
        days["until"] = entry.value.until
    for name, day in days.items():
        if not FIRST_DAY <= day <= last:
            yield f"{name} must be from {FIRST_DAY} to {last}, not {day}"
    yield from _faults_of_numbers(entry)


def _faults_of_numbers(entry: Entry) -> Iterator[str]:
    value = entry.value
    aged = isinstance(value, CellAge | VirginAge)
    most = OLDEST_WHEN_PLACED.value if aged else LARGEST_NUMBER
    for name in [field.name for field in fields(value)] if value is not None else []:
        number = getattr(value, name)
        if isinstance(number, int | float) and number > most:
            yield f"{name} must be at most {most:g}"
