"""The yards of a crew and the units that stand in them."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Integer, bindparam, delete, select

from scheduling.places import UnitName
from scheduling.records.calendar_cache import check_log_again
from scheduling.records.crews import CREW_COLUMNS, Crew, CrewScope, crew_of, folded, tidy
from scheduling.records.engine import connection_of
from scheduling.records.removed_yards import hide_yard
from scheduling.records.tables import CrewRow, UnitRow, YardRow
from scheduling.records.weather_asked import ask_soon
from scheduling.records.weather_days import make_all_days, site_of
from scheduling.wall_time import known_zone


@dataclass(frozen=True)
class Yard:
    """A place with boxes.

    Attributes:
        id: the yard's number.
        crew_id: the crew's number.
        name: unique in the crew, whatever the capitals.
        zone: the time zone its dates are in, an IANA name.
        latitude: degrees, north positive; None when not known.
        longitude: degrees, east positive; None when not known.
    """

    id: int
    crew_id: int
    name: str
    zone: str
    latitude: float | None = None
    longitude: float | None = None

    @property
    def location(self) -> tuple[float, float] | None:
        """Latitude and longitude; None when not known."""
        if self.latitude is None or self.longitude is None:
            return None
        return self.latitude, self.longitude


@dataclass(frozen=True)
class CrewAtAGlance:
    """A crew with its yards and their units.

    Attributes:
        crew: the crew.
        by_yard: the units by the yard's name.
        zones: the time zone of each yard by its name.
        removed: the names under which removed yards stand in the log.
    """

    crew: Crew
    by_yard: Mapping[str, tuple[UnitName, ...]]
    zones: Mapping[str, str]
    removed: frozenset[str] = frozenset()


_AT_A_GLANCE = (
    select(
        *CREW_COLUMNS,
        *(YardRow.name.label("yard_name"), YardRow.zone, UnitRow.box, UnitRow.letter),
        YardRow.removed_at,
    )
    .select_from(CrewRow)
    .outerjoin(YardRow, YardRow.crew_id == CrewRow.id)
    .outerjoin(UnitRow, UnitRow.yard_id == YardRow.id)
    .where(CrewRow.id == bindparam("crew", type_=Integer))
    .order_by(YardRow.id, UnitRow.box, UnitRow.letter)
)


class YardsOfCrew(CrewScope):
    """The yards and units of one crew."""

    def yards(self) -> tuple[Yard, ...]:
        """Give every yard, in the order they were made."""
        of_crew = select(YardRow).where(
            YardRow.crew_id == self._crew_id, YardRow.removed_at.is_(None)
        )
        of_crew = of_crew.order_by(YardRow.id)
        return tuple(_yard_of(row) for row in self._session.scalars(of_crew))

    def yard(self, name: str) -> Yard:
        """Give one yard by its name, whatever the capitals.

        Raises:
            LookupError: this crew has no such yard.
        """
        return _yard_of(self._yard_row(name))

    def add_yard(
        self,
        name: str,
        zone: str,
        *,
        latitude: float | None = None,
        longitude: float | None = None,
    ) -> Yard:
        """Make a yard without units.

        Raises:
            ValueError: the crew has a yard of that name, the zone is unknown, or there is no such
                place on earth.
        """
        name = tidy(name)
        self._refuse_taken_yard(name)
        _check_location(latitude, longitude)
        row = YardRow(
            crew_id=self._crew_id,
            name=name,
            name_folded=folded(name),
            zone=known_zone(zone),
            latitude=latitude,
            longitude=longitude,
        )
        self._session.add(row)
        self._session.flush()
        ask_soon(self._session, row)
        return _yard_of(row)

    def rename_yard(self, yard: str, name: str) -> Yard:
        """Call a yard otherwise; all that was noted of it goes with the new name.

        Raises:
            LookupError: this crew has no such yard.
            ValueError: the crew has another yard of that name.
        """
        row, name = self._yard_row(yard), tidy(name)
        if folded(name) != row.name_folded:
            self._refuse_taken_yard(name)
        row.name, row.name_folded = name, folded(name)
        self._session.flush()
        check_log_again(self._session, self._crew_id)
        return _yard_of(row)

    def remove_yard(self, yard: str, now: datetime) -> None:
        """Take a yard and its units out of sight; its entries stay in the log.

        Raises:
            LookupError: this crew has no such yard.
        """
        hide_yard(self._session, self._yard_row(yard), now)

    def remove_units(self, yard: str, units: Iterable[UnitName]) -> None:
        """Take units away from a yard; their entries stay in the log.

        Raises:
            LookupError: this crew has no such yard.
        """
        row = self._yard_row(yard)
        for unit in units:
            same = (UnitRow.box == unit.box) & (UnitRow.letter == unit.letter)
            self._session.execute(delete(UnitRow).where(UnitRow.yard_id == row.id, same))
        self._session.expire_all()

    def _refuse_taken_yard(self, name: str) -> None:
        names = select(YardRow.name_folded).where(YardRow.crew_id == self._crew_id)
        if folded(name) in set(self._session.scalars(names)):
            raise ValueError(f"there is already a yard {tidy(name)!r}")

    def set_location(self, yard: str, latitude: float, longitude: float) -> Yard:
        """Say where a yard is, in degrees, north and east positive.

        Raises:
            LookupError: this crew has no such yard.
            ValueError: there is no such place on earth.
        """
        row = self._yard_row(yard)
        _check_location(latitude, longitude)
        row.latitude, row.longitude = latitude, longitude
        self._session.flush()
        ask_soon(self._session, row)
        return _yard_of(row)

    def set_yard_zone(self, yard: str, zone: str) -> Yard:
        """Say which time zone a yard's dates are in.

        Raises:
            LookupError: this crew has no such yard.
            ValueError: the zone is unknown.
        """
        row = self._yard_row(yard)
        row.zone = known_zone(zone)
        self._session.flush()
        if row.latitude is not None:
            make_all_days(self._session, row.id, site_of(row))
        return _yard_of(row)

    def add_units(self, yard: str, units: Iterable[UnitName]) -> tuple[UnitName, ...]:
        """Set up units in a yard; those it has already stay. Gives the new ones.

        Raises:
            LookupError: this crew has no such yard.
        """
        row = self._yard_row(yard)
        new = sorted(set(units) - set(self.units(yard)))
        rows = (UnitRow(yard_id=row.id, box=unit.box, letter=unit.letter) for unit in new)
        self._session.add_all(rows)
        self._session.flush()
        return tuple(new)

    def units(self, yard: str) -> tuple[UnitName, ...]:
        """Give a yard's units as they stand.

        Raises:
            LookupError: this crew has no such yard.
        """
        of_yard = select(UnitRow.box, UnitRow.letter).where(
            UnitRow.yard_id == self._yard_row(yard).id
        )
        return tuple(
            sorted(UnitName(box, letter) for box, letter in self._session.execute(of_yard))
        )

    def at_a_glance(self) -> CrewAtAGlance:
        """Give the crew, every yard's units and its zone.

        Raises:
            LookupError: there is no such crew.
        """
        asked = {"crew": self._crew_id}
        seen = connection_of(self._session).execute(_AT_A_GLANCE, asked).all()
        if not seen:
            raise LookupError(f"there is no crew {self._crew_id}")
        in_yards = [row for row in seen if row.yard_name is not None and row.removed_at is None]
        zones = {row.yard_name: row.zone for row in in_yards}
        removed = frozenset(row.yard_name for row in seen if row.removed_at is not None)
        return CrewAtAGlance(crew_of(seen[0]), _by_yard(in_yards), zones, removed)


def _by_yard(rows: Iterable[Any]) -> dict[str, tuple[UnitName, ...]]:
    found: dict[str, list[UnitName]] = {}
    for row in rows:
        units = found.setdefault(row.yard_name, [])
        if row.box is not None:
            units.append(UnitName(row.box, row.letter))
    return {yard: tuple(units) for yard, units in found.items()}


def _yard_of(row: Any) -> Yard:
    return Yard(row.id, row.crew_id, row.name, row.zone, row.latitude, row.longitude)


def _check_location(latitude: float | None, longitude: float | None) -> None:
    if (latitude is None) != (longitude is None):
        raise ValueError("a location is a latitude and a longitude")
    if latitude is not None and not -90 <= latitude <= 90:
        raise ValueError(f"latitude {latitude} is not from -90 to 90")
    if longitude is not None and not -180 <= longitude <= 180:
        raise ValueError(f"longitude {longitude} is not from -180 to 180")
