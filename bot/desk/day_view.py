"""A day as one person sees it: every yard with what is due there, and who goes."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date

from bot.wording import yard_days as layout
from bot.wording.groups import YardDay
from scheduling.checks.calendar import Calendar
from scheduling.entries import Entry, standing
from scheduling.places import UnitName
from scheduling.visits import due_on, taken_on


def yard_days(
    calendar: Calendar,
    log: Iterable[Entry],
    units: Mapping[str, Sequence[UnitName]],
    day: date,
    person: str,
) -> tuple[YardDay, ...]:
    """The yards of the crew on a local date.

    A yard that somebody else has taken on for the day says so and is off this person's list.
    """
    taken = taken_on(standing(log), day)
    return layout.yard_days(due_on(calendar, day), units, taken, person)
