"""A fingerprint of all that a crew's calendar is worked out from, read in two statements."""

from sqlalchemy import Integer, bindparam, func, literal, select, union_all
from sqlalchemy.orm import Session

from scheduling.records.crews import CREW_COLUMNS
from scheduling.records.engine import connection_of
from scheduling.records.tables import CrewRow, EntryRow, PersonRow, UnitRow, YardRow
from scheduling.records.weather_tables import WeatherAskedRow
from scheduling.weather.kept_day import figures_version

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
