"""The way to a crew's records, its weather by day among them, and the way in for a new crew."""

from collections.abc import Iterable, Mapping
from dataclasses import fields
from datetime import date, datetime, timedelta
from typing import Any

from sqlalchemy import Date, Integer, bindparam, func, literal, select, union_all
from sqlalchemy.orm import Session

from scheduling.checks.calendar import Calendar
from scheduling.entries import Entry
from scheduling.records.calendar_cache import cached_calendar
from scheduling.records.crews import CREW_COLUMNS, Crew, add_crew
from scheduling.records.engine import connection_of
from scheduling.records.invites import InvitesOfCrew
from scheduling.records.log import LogOfCrew
from scheduling.records.people import Person
from scheduling.records.set_up_changes import SetUpChangeRow, SetUpChangesOfCrew
from scheduling.records.tables import CrewRow, EntryRow, PersonRow, Role, UnitRow, YardRow
from scheduling.records.weather_days import WeatherAskedRow, WeatherDayRow
from scheduling.records.yards import YardsOfCrew
from scheduling.walk.odds import Odds
from scheduling.weather.day import DayOfWeather, figures_version
from scheduling.weather.fit_hours import Unfit
from scheduling.weather.yard_weather import YardWeather

_DAYS = (
    select(
        YardRow.name,
        WeatherDayRow.day,
        WeatherDayRow.flight_hours,
        WeatherDayRow.measured,
        *(getattr(WeatherDayRow, part.name) for part in fields(DayOfWeather)),
    )
    .join(YardRow, YardRow.id == WeatherDayRow.yard_id)
    .where(YardRow.crew_id == bindparam("crew", type_=Integer))
    .where(WeatherDayRow.day >= bindparam("since", type_=Date))
    .order_by(YardRow.id, WeatherDayRow.day)
)


_LOOKED_BACK = timedelta(days=60)
"""Longer than any queen is waited for."""


class WeatherOfCrew(YardsOfCrew):
    """The weather of one crew's yards."""

    def weather_about(self, day: date) -> Mapping[str, YardWeather]:
        """Give the weather of each yard as far back as it can matter on a day."""
        return self.weather(day - _LOOKED_BACK)

    def weather(self, first: date) -> Mapping[str, YardWeather]:
        """Give the weather of each yard for which there is any, from a local date on.

        The date before may still be the last that was measured.
        """
        asked = {"crew": self._crew_id, "since": first - timedelta(days=1)}
        by_yard: dict[str, list[Any]] = {}
        for row in connection_of(self._session).execute(_DAYS, asked):
            by_yard.setdefault(row.name, []).append(row)
        return {yard: _weather(rows, first) for yard, rows in by_yard.items()}


def _weather(rows: list[Any], first: date) -> YardWeather:
    since = [row for row in rows if row.day >= first]
    known = {row.day: row.flight_hours for row in since if row.flight_hours is not None}
    measured = [row.day for row in rows if row.measured]
    return YardWeather(
        flight_hours=known,
        days={row.day: _day(row) for row in since},
        measured_to=max(measured, default=None),
    )


def _day(row: Any) -> DayOfWeather:
    unfit = None if row.unfit is None else Unfit(row.unfit)
    return DayOfWeather(row.warmest_c, row.mean_c, row.opening_hours, unfit, row.heat_index_f)


class CrewRecords(LogOfCrew, InvitesOfCrew, WeatherOfCrew, SetUpChangesOfCrew):
    """All records of one crew: people, addresses, yards, units, log, invites, weather, changes.

    No method reads or writes anything of another crew. A number or name that is not of this crew
    is a ``LookupError``, whether or not another crew has it.
    """

    def calendar(
        self,
        log: Iterable[Entry],
        weather: Mapping[str, YardWeather],
        odds: Odds,
        feeder_litres: float,
        removed: frozenset[str] = frozenset(),
    ) -> Calendar:
        """Work out the calendar of the crew, through the cache.

        Args:
            log: the crew's whole log.
            weather: what is known of each yard's weather.
            odds: the chances at which the crew looks and gives up.
            feeder_litres: what a feeder holds in which doses are counted.
            removed: yards of which nothing is due any more.
        """
        of = self._session, self._crew_id
        if removed:
            log = [entry for entry in log if entry.place.yard not in removed]
        return cached_calendar(*of, log, weather, odds, feeder_litres)


def found_crew(
    session: Session, name: str, owner_name: str, zone: str, now: datetime
) -> tuple[Crew, Person]:
    """Make a crew with its owner in it.

    Raises:
        ValueError: a name is empty or the zone is unknown.
    """
    crew = add_crew(session, name)
    records = CrewRecords(session, crew.id)
    return crew, records.add_person(owner_name, zone=zone, now=now, role=Role.OWNER)


_CREW = bindparam("crew", type_=Integer)
_LOG = union_all(
    select(literal("log"), func.count(), func.max(EntryRow.seq), literal("")).where(
        EntryRow.crew_id == _CREW
    ),
    select(literal("person"), PersonRow.id, literal(0), PersonRow.name).where(
        PersonRow.crew_id == _CREW
    ),
    select(literal("units"), UnitRow.yard_id, func.count(UnitRow.id), literal(""))
    .join(YardRow, YardRow.id == UnitRow.yard_id)
    .where(YardRow.crew_id == _CREW)
    .group_by(UnitRow.yard_id),
    select(
        literal("changes"), func.count(), func.count(SetUpChangeRow.undone_at), literal("")
    ).where(SetUpChangeRow.crew_id == _CREW),
)
_YARDS = (
    select(
        *CREW_COLUMNS,
        *(YardRow.id, YardRow.name, YardRow.zone, YardRow.latitude, YardRow.longitude),
        *(WeatherAskedRow.answered_at, WeatherAskedRow.figures),
        *(WeatherAskedRow.latitude, WeatherAskedRow.longitude),
    )
    .select_from(CrewRow)
    .outerjoin(YardRow, YardRow.crew_id == CrewRow.id)
    .outerjoin(WeatherAskedRow, WeatherAskedRow.yard_id == YardRow.id)
    .where(CrewRow.id == _CREW)
    .order_by(YardRow.id)
)


def fingerprint_of(session: Session, crew_id: int) -> str:
    """Give what stays the same as long as nothing was said, settled or answered of a crew.

    The log is only added to, and units are taken away and put back only by changes of the set-up,
    so their numbers tell; the weather by when its source answered, and by the figures that its
    days were made with.
    """
    asked = {"crew": crew_id}
    connection = connection_of(session)
    log = sorted(tuple(row) for row in connection.execute(_LOG, asked))
    yards = [tuple(row) for row in connection.execute(_YARDS, asked)]
    return repr((figures_version(), log, yards))
