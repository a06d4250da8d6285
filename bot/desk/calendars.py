"""The calendar of a crew with all that bears on it: its log, its weather, odds and feeders."""

from collections.abc import Iterable, Mapping
from datetime import date, timedelta

from scheduling.checks.calendar import Calendar
from scheduling.checks.work_out_again import WorkedOut, work_out_again
from scheduling.entries import Entry
from scheduling.records.gateway import CrewRecords
from scheduling.walk.odds import Odds
from scheduling.weather.yard_weather import YardWeather

_LOOKED_BACK = timedelta(days=60)
"""Longer than any queen is waited for."""


def weather_about(records: CrewRecords, day: date) -> Mapping[str, YardWeather]:
    """The weather kept for a crew's yards, as far back as it can matter on a day."""
    return records.weather(day - _LOOKED_BACK)


def calendar_of(
    records: CrewRecords,
    log: Iterable[Entry],
    weather: Mapping[str, YardWeather],
    feeder_litres: float,
    odds: Odds,
) -> Calendar:
    """The calendar of a crew by its odds, for a person whose feeders hold so much.

    Of units of which nothing new was told, what this process worked out before is used again.
    """
    known = work_out_again(records.recall(WorkedOut), log, weather, odds, feeder_litres)
    records.remember(known)
    return known.calendar
