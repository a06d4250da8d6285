"""Days of weather made of the hours that are kept: once, when a source answers; and their tables.

The tables are a copy of what a source said; emptying them loses nothing that cannot be asked again.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import asdict, dataclass, fields
from datetime import UTC, date, datetime, time, timedelta

from sqlalchemy import Engine, Float, ForeignKey, String, delete, insert, select, update
from sqlalchemy.orm import Mapped, Session, mapped_column

from scheduling.records.engine import reading, writing
from scheduling.records.locks import hold_lock
from scheduling.records.tables import Base, YardRow
from scheduling.weather.day import KeptDay, days_to_keep, figures_version
from scheduling.weather.hour import HourOfWeather, Site, local_day_of


class WeatherHourRow(Base):
    """One hour at one yard; what is not known is empty."""

    __tablename__ = "weather_hour"

    yard_id: Mapped[int] = mapped_column(ForeignKey("yard.id"), primary_key=True)
    at: Mapped[datetime] = mapped_column(primary_key=True)
    temperature_c: Mapped[float | None] = mapped_column(Float)
    wind_kmh: Mapped[float | None] = mapped_column(Float)
    rain_mm: Mapped[float | None] = mapped_column(Float)
    cloud_share: Mapped[float | None] = mapped_column(Float)
    sunshine_minutes: Mapped[float | None] = mapped_column(Float)
    humidity_percent: Mapped[float | None] = mapped_column(Float)
    measured: Mapped[bool]
    """It had gone by when it was asked for; a forecast had not."""


class WeatherDayRow(Base):
    """One local date at one yard, made of its hours; what is not known is empty."""

    __tablename__ = "weather_day"

    yard_id: Mapped[int] = mapped_column(ForeignKey("yard.id"), primary_key=True)
    day: Mapped[date] = mapped_column(primary_key=True)
    flight_hours: Mapped[float | None] = mapped_column(Float)
    opening_hours: Mapped[float | None] = mapped_column(Float)
    unfit: Mapped[str | None] = mapped_column(String(10))
    """What forbids opening a unit, from the closed list of reasons."""
    warmest_c: Mapped[float | None] = mapped_column(Float)
    mean_c: Mapped[float | None] = mapped_column(Float)
    heat_index_f: Mapped[float | None] = mapped_column(Float)
    measured: Mapped[bool]
    """All its hours had gone by when they were asked for."""


class WeatherAskedRow(Base):
    """When a yard's weather was asked for, and where; every yard with a place has a row."""

    __tablename__ = "weather_asked"

    yard_id: Mapped[int] = mapped_column(ForeignKey("yard.id"), primary_key=True)
    latitude: Mapped[float] = mapped_column(Float)
    longitude: Mapped[float] = mapped_column(Float)
    answered_at: Mapped[datetime | None]
    failures: Mapped[int]
    """How many times in a row there was no answer."""
    next_at: Mapped[datetime] = mapped_column(index=True)
    figures: Mapped[str] = mapped_column(
        String(16), index=True, default=figures_version, server_default=""
    )
    """The version of the figures that all its days were made with; empty for another one."""


_HOUR = tuple(getattr(WeatherHourRow, field.name) for field in fields(HourOfWeather))
"""The columns of an hour are called as its parts are."""

_ONE_DAY = timedelta(days=1)


@dataclass(frozen=True)
class _Outdated:
    """A yard whose days were made with other figures, and when its source last answered."""

    yard_id: int
    site: Site
    answered_at: datetime | None


def site_of(yard: YardRow) -> Site:
    """Give the place of a yard that has one."""
    assert yard.latitude is not None and yard.longitude is not None  # noqa: S101, PT018 - has one
    return Site(yard.latitude, yard.longitude, yard.zone)


def make_days_of(session: Session, yard_id: int, site: Site, instants: Iterable[datetime]) -> None:
    """Make those days of a yard anew to which these hours belong, out of the hours kept."""
    days = {local_day_of(at, site.zone) for at in instants}
    if days:
        first, last = min(days), max(days)
        made = _made(session, yard_id, site, first - _ONE_DAY, last + _ONE_DAY)
        kept = {day: each for day, each in made.items() if first <= day <= last}
        _replace(session, yard_id, kept, first, last)


def make_all_days(session: Session, yard_id: int, site: Site) -> None:
    """Make every day of a yard anew, as after its dates became another zone's."""
    _replace_all(session, yard_id, _made(session, yard_id, site))


def forget_days(session: Session, yard_id: int) -> None:
    """Take away the days of where a yard was before."""
    session.execute(delete(WeatherDayRow).where(WeatherDayRow.yard_id == yard_id))


def make_days_anew(engine: Engine, going_on: Callable[[], bool]) -> int:
    """Make days anew that were made with other figures, yard by yard; gives of how many yards.

    The database is held only while the days of one yard are written down.

    Args:
        engine: the database.
        going_on: asked before each yard.
    """
    number = 0
    while going_on() and (found := _next_outdated(engine)) is not None:
        with reading(engine) as session:
            days = _made(session, found.yard_id, found.site)
        with writing(engine) as session:
            _keep_if_not_answered(session, found, days)
        number += 1
    return number


def _next_outdated(engine: Engine) -> _Outdated | None:
    asked, now = WeatherAskedRow, figures_version()
    first = select(asked).order_by(asked.figures).limit(1)
    with reading(engine) as session:
        # Two ranges and not "unlike", so that the index serves.
        below = session.scalar(first.where(asked.figures < now))
        found = below or session.scalar(first.where(asked.figures > now))
        if found is None:
            return None
        yard = session.get_one(YardRow, found.yard_id)
        return _Outdated(yard.id, site_of(yard), found.answered_at)


def _keep_if_not_answered(session: Session, yard: _Outdated, days: Mapping[date, KeptDay]) -> None:
    """Keep the days unless the source answered or the yard was moved meanwhile."""
    hold_lock(session, "weather")
    here = site_of(session.get_one(YardRow, yard.yard_id))
    asked = session.get_one(WeatherAskedRow, yard.yard_id)
    if (here, asked.answered_at) == (yard.site, yard.answered_at):
        _replace_all(session, yard.yard_id, days)


def _replace_all(session: Session, yard_id: int, days: Mapping[date, KeptDay]) -> None:
    _replace(session, yard_id, days, date.min, date.max)
    asked = update(WeatherAskedRow).where(WeatherAskedRow.yard_id == yard_id)
    session.execute(asked.values(figures=figures_version()))


def _replace(
    session: Session, yard_id: int, days: Mapping[date, KeptDay], first: date, last: date
) -> None:
    kept = WeatherDayRow
    same = (kept.yard_id == yard_id, kept.day >= first, kept.day <= last)
    session.execute(delete(kept).where(*same))
    if days:
        session.execute(insert(kept), [_row(yard_id, day, days[day]) for day in days])


def _row(yard_id: int, day: date, kept: KeptDay) -> dict[str, object]:
    row = {"yard_id": yard_id, "day": day, **asdict(kept.weather)}
    return {**row, "flight_hours": kept.flight_hours, "measured": kept.measured}


def _made(
    session: Session,
    yard_id: int,
    site: Site,
    first: date = date.min,
    last: date = date.max,
) -> Mapping[date, KeptDay]:
    """Make days of the hours kept of these UTC dates, both included."""
    hours = select(*_HOUR, WeatherHourRow.measured).where(WeatherHourRow.yard_id == yard_id)
    if first > date.min:
        hours = hours.where(WeatherHourRow.at >= _midnight(first))
    if last < date.max:
        hours = hours.where(WeatherHourRow.at < _midnight(last + _ONE_DAY))
    found = session.execute(hours.order_by(WeatherHourRow.at)).all()
    measured = [HourOfWeather(*row[:-1]) for row in found if row.measured]
    forecast = [HourOfWeather(*row[:-1]) for row in found if not row.measured]
    return days_to_keep(measured, forecast, site)


def _midnight(day: date) -> datetime:
    return datetime.combine(day, time(), tzinfo=UTC)
