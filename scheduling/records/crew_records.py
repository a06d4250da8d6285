"""The way to a crew's records, the way in for a new crew, and a fingerprint of what is known."""

from collections.abc import Iterable, Mapping
from datetime import datetime

from sqlalchemy import Integer, bindparam, func, literal, select, union_all
from sqlalchemy.orm import Session

from scheduling.checks.calendar import Calendar
from scheduling.entries import Entry
from scheduling.records.calendar_cache import cached_calendar
from scheduling.records.crews import CREW_COLUMNS, Crew, add_crew
from scheduling.records.engine import connection_of
from scheduling.records.invites import InvitesOfCrew
from scheduling.records.log import LogOfCrew
from scheduling.records.people import Person
from scheduling.records.tables import CrewRow, EntryRow, PersonRow, Role, UnitRow, YardRow
from scheduling.records.weather import WeatherOfCrew
from scheduling.records.weather_tables import WeatherAskedRow
from scheduling.walk.odds import Odds
from scheduling.weather.day import figures_version
from scheduling.weather.yard_weather import YardWeather


class CrewRecords(LogOfCrew, InvitesOfCrew, WeatherOfCrew):
    """All records of one crew: its people, addresses, yards, units, log, invites and weather.

    No method reads or writes anything of another crew. A number or name that is not of this crew
    is a ``LookupError``, whether or not another crew has it.
    """

    def calendar(
        self,
        log: Iterable[Entry],
        weather: Mapping[str, YardWeather],
        odds: Odds,
        feeder_litres: float,
    ) -> Calendar:
        """Work out the calendar of the crew, through the cache.

        Args:
            log: the crew's whole log.
            weather: what is known of each yard's weather.
            odds: the chances at which the crew looks and gives up.
            feeder_litres: what a feeder holds in which doses are counted.
        """
        of = self._session, self._crew_id
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

    The log is only added to and units are never taken away, so their number tells; the weather by
    when its source answered, and by the figures that its days were made with.
    """
    asked = {"crew": crew_id}
    connection = connection_of(session)
    log = sorted(tuple(row) for row in connection.execute(_LOG, asked))
    yards = [tuple(row) for row in connection.execute(_YARDS, asked)]
    return repr((figures_version(), log, yards))
