"""A day as one person sees it: every yard with what is due there, and who goes."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date

from bot.wording import groups as layout
from bot.wording.groups import YardDay
from scheduling.checks.calendar import Calendar
from scheduling.entries import Entry, standing
from scheduling.entry_facts import entry_kinds
from scheduling.entry_kinds import Scope
from scheduling.fit_days import moved_to_fit_days
from scheduling.places import UnitName
from scheduling.visits import due_on, taken_on
from scheduling.weather.warnings import warnings_on
from scheduling.weather.words import with_words
from scheduling.weather.yard_weather import YardWeather

_SAID_OF_YARDS = entry_kinds(lambda facts: facts.scope in (Scope.YARD, Scope.ENTRY))
"""What of the log bears on a day beside the calendar, and what strikes it; a small part of it."""


def yard_days(
    calendar: Calendar,
    log: Iterable[Entry],
    units: Mapping[str, Sequence[UnitName]],
    day: date,
    person: str,
    weather: Mapping[str, YardWeather],
) -> tuple[YardDay, ...]:
    """The yards of the crew on a local date.

    A yard that somebody else has taken on for the day says so and is off this person's list.
    What the weather forbids that day waits for the next fit one.
    """
    stands = standing([entry for entry in log if entry.kind in _SAID_OF_YARDS])
    plan = moved_to_fit_days(due_on(calendar, day), weather)
    said = with_words(weather, stands)
    warnings = {yard: warnings_on(day, known) for yard, known in said.items()}
    return layout.lay_out_by_yard(plan, units, taken_on(stands, day), person, warnings)
