"""The way to a crew's records, and the way in for a new crew."""

from collections.abc import Iterable, Mapping
from datetime import datetime

from sqlalchemy.orm import Session

from scheduling.checks.calendar import Calendar
from scheduling.entries import Entry
from scheduling.records.calendar_cache import cached_calendar
from scheduling.records.crews import Crew, add_crew
from scheduling.records.invites import InvitesOfCrew
from scheduling.records.log import LogOfCrew
from scheduling.records.people import Person
from scheduling.records.tables import Role
from scheduling.records.weather import WeatherOfCrew
from scheduling.walk.odds import Odds
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
