"""The calendar of a crew with all that bears on it: its log, its weather, odds and feeders."""

from collections.abc import Iterable, Mapping
from datetime import date, timedelta

from scheduling.checks.calendar import Calendar, work_out
from scheduling.checks.feeders import in_feeders
from scheduling.entries import Entry
from scheduling.records.gateway import CrewRecords
from scheduling.walk.odds import Odds
from scheduling.weather.traps import traps_by_warmth
from scheduling.weather.yard_weather import YardWeather

_LOOKED_BACK = timedelta(days=60)
"""Longer than any queen is waited for."""


def weather_about(records: CrewRecords, day: date) -> dict[str, YardWeather]:
    """The weather kept for a crew's yards, as far back as it can matter on a day."""
    return records.weather(day - _LOOKED_BACK)


def calendar_of(
    log: Iterable[Entry], weather: Mapping[str, YardWeather], feeder_litres: float, odds: Odds
) -> Calendar:
    """The calendar of a crew by its own odds, for a person whose feeders hold so much."""
    return in_feeders(traps_by_warmth(work_out(log, weather, odds), weather), feeder_litres)
