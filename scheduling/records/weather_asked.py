"""Which yards want weather now, and keeping what a source answered, whosever yards they are."""

from collections.abc import Iterable
from dataclasses import asdict, dataclass
from datetime import UTC, datetime

from sqlalchemy import delete, insert, select, update
from sqlalchemy.orm import Session

from scheduling.records.locks import hold_lock
from scheduling.records.tables import YardRow
from scheduling.records.weather_days import (
    WeatherAskedRow,
    WeatherDayRow,
    WeatherHourRow,
    forget_days,
    make_all_days,
    make_days_of,
    site_of,
)
from scheduling.weather.hour import HOUR, HourOfWeather, Site, without_faults

SINCE_EVER = datetime(1970, 1, 1, tzinfo=UTC)
"""When the weather of a yard is due that was never asked for."""


@dataclass(frozen=True)
class YardToAsk:
    """A yard whose weather is to be asked for.

    Attributes:
        yard_id: the yard's number.
        site: where it is.
        answered_at: when the source last answered for this place; None for never.
        failures: how many times in a row it has not.
    """

    yard_id: int
    site: Site
    answered_at: datetime | None = None
    failures: int = 0


def claim_yards(
    session: Session, now: datetime, until: datetime, limit: int
) -> tuple[YardToAsk, ...]:
    """Give the yards whose weather is due, longest due first; a yard that was moved is due.

    They are due again at ``until``, so that no other worker asks for them meanwhile and a worker
    that dies leaves them to another.
    """
    hold_lock(session, "weather")
    asked = WeatherAskedRow
    due = (
        select(YardRow, asked)
        .join(asked, asked.yard_id == YardRow.id)
        .where(asked.next_at <= now, YardRow.latitude.is_not(None), YardRow.removed_at.is_(None))
        .order_by(asked.next_at, asked.yard_id)
        .limit(limit)
    )
    claimed = tuple(_to_ask(yard, before) for yard, before in session.execute(due))
    for yard in claimed:
        _forget_another_place(session, yard)
        _note(session, yard, yard.answered_at, yard.failures, until)
    return claimed


def ask_soon(session: Session, yard: YardRow) -> None:
    """Let a yard's weather be due, if it is another place than the one asked for."""
    if yard.latitude is None or yard.longitude is None:
        return
    hold_lock(session, "weather")
    asked = session.get(WeatherAskedRow, yard.id, populate_existing=True)
    if asked is None:
        new = YardToAsk(yard.id, Site(yard.latitude, yard.longitude, yard.zone))
        _note(session, new, None, 0, SINCE_EVER)
    elif (asked.latitude, asked.longitude) != (yard.latitude, yard.longitude):
        asked.next_at = SINCE_EVER
        session.flush()


def forget_place(session: Session, yard: YardRow) -> None:
    """Take away the weather of a yard whose place is not known any more."""
    hold_lock(session, "weather")
    for kept in (WeatherHourRow, WeatherAskedRow):
        session.execute(delete(kept).where(kept.yard_id == yard.id))
    forget_days(session, yard.id)
    session.expire_all()


def ask_what_is_put_off_beyond(session: Session, instant: datetime, now: datetime) -> int:
    """Let weather be due that was put off further than it ever should be; gives how many."""
    hold_lock(session, "weather")
    beyond = update(WeatherAskedRow).where(WeatherAskedRow.next_at > instant)
    changed = beyond.values(next_at=now).returning(WeatherAskedRow.yard_id)
    return len(session.scalars(changed).all())


def keep_answer(
    session: Session,
    yard: YardToAsk,
    hours: Iterable[HourOfWeather],
    now: datetime,
    next_at: datetime,
) -> None:
    """Keep what was answered in place of what was kept of the same hours, and make its days.

    Faults are left out. An answer for a place from which the yard has been moved since is let go.
    """
    hold_lock(session, "weather")
    if not _still_there(session, yard):
        return
    rows = {hour.at: _row(yard.yard_id, hour, now) for hour in hours}
    if rows:
        kept = WeatherHourRow
        same = (kept.yard_id == yard.yard_id, kept.at >= min(rows), kept.at <= max(rows))
        session.execute(delete(kept).where(*same))
        session.execute(insert(kept), [rows[at] for at in sorted(rows)])
    _note(session, yard, now, 0, next_at)
    if yard.answered_at is None:
        make_all_days(session, yard.yard_id, yard.site)
    else:
        make_days_of(session, yard.yard_id, yard.site, rows)


def note_no_answer(session: Session, yard: YardToAsk, next_at: datetime) -> None:
    """Note that the source did not answer; what is kept stays, and it is asked again."""
    hold_lock(session, "weather")
    if _still_there(session, yard):
        _note(session, yard, yard.answered_at, yard.failures + 1, next_at)


def forget_hours_before(session: Session, instant: datetime) -> None:
    """Take away hours, and days, that no calendar looks back to any more."""
    session.execute(delete(WeatherHourRow).where(WeatherHourRow.at < instant))
    session.execute(delete(WeatherDayRow).where(WeatherDayRow.day < instant.date()))


def _to_ask(yard: YardRow, before: WeatherAskedRow) -> YardToAsk:
    site = site_of(yard)
    if (before.latitude, before.longitude) != (yard.latitude, yard.longitude):
        return YardToAsk(yard.id, site)
    return YardToAsk(yard.id, site, before.answered_at, before.failures)


def _still_there(session: Session, yard: YardToAsk) -> bool:
    row = session.get(YardRow, yard.yard_id)
    here = (yard.site.latitude, yard.site.longitude)
    return row is not None and (row.latitude, row.longitude) == here


def _forget_another_place(session: Session, yard: YardToAsk) -> None:
    """Take away the hours of where the yard was before."""
    before = session.get(WeatherAskedRow, yard.yard_id)
    here = (yard.site.latitude, yard.site.longitude)
    if before is not None and (before.latitude, before.longitude) != here:
        session.execute(delete(WeatherHourRow).where(WeatherHourRow.yard_id == yard.yard_id))
        forget_days(session, yard.yard_id)


def _note(
    session: Session,
    yard: YardToAsk,
    answered_at: datetime | None,
    failures: int,
    next_at: datetime,
) -> None:
    session.merge(
        WeatherAskedRow(
            yard_id=yard.yard_id,
            latitude=yard.site.latitude,
            longitude=yard.site.longitude,
            answered_at=answered_at,
            failures=failures,
            next_at=next_at,
        )
    )
    session.flush()


def _row(yard_id: int, hour: HourOfWeather, now: datetime) -> dict[str, object]:
    over = hour.at + HOUR <= now
    return {"yard_id": yard_id, **asdict(without_faults(hour)), "measured": over}
