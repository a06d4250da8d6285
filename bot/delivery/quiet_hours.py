"""Hours of the day in which nobody is sent what they did not just ask for."""

from collections.abc import Sequence
from datetime import UTC, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from sqlalchemy import Row, bindparam, update
from sqlalchemy.orm import Session

from bot.channels.traits import NO_QUIET, QuietHours, traits_of
from bot.delivery.message_tables import IS_PLANNED, OutboxRow
from bot.delivery.rules import Purpose, SendQueue
from scheduling.records.engine import connection_of
from scheduling.records.people import Person, people_with_yards, person_of
from scheduling.records.tables import PersonRow, table_of
from scheduling.wall_time import local_day

_DAY = timedelta(days=1)
_EVENING_MORNING_HOURS = 1
"""How long after its hour a morning that somebody wants in their quiet evening may be tried."""


_PUT_OFF = (
    update(table_of(OutboxRow))
    .where(OutboxRow.id == bindparam("row"))
    .values(next_try_at=bindparam("end"), quiet_until=bindparam("end"))
)

_WITH_THE_MORNING = (Purpose.MORNING, Purpose.CAUTION)
"""What comes at an hour that the person asked for; the caution is to come before the morning."""

_BESIDE_AN_ANSWER = (Purpose.FIRST_CAUTION, Purpose.EDIT)


def usual_quiet(channel: str, person: Person) -> QuietHours:
    """Give a person's quiet hours: their own, or those of the channel, unless it has none."""
    usual = traits_of(channel).quiet
    if usual == NO_QUIET or person.quiet_from is None or person.quiet_until is None:
        return usual
    return QuietHours(person.quiet_from, person.quiet_until)


def quiet_on(channel: str, person: Person) -> QuietHours:
    """Give the quiet hours of a person's morning, which comes in them only if they asked for it."""
    hours = usual_quiet(channel, person)
    if person.morning_asked_at is None or not hours.hold(person.morning):
        return hours
    return _opened(hours, person.morning)


def _opened(hours: QuietHours, morning: time) -> QuietHours:
    if morning < hours.end:
        return QuietHours(hours.begin, morning)
    after = time((morning.hour + _EVENING_MORNING_HOURS) % 24, morning.minute)
    return QuietHours(after, hours.end) if hours.hold(after) else QuietHours(after, after)


def quiet_end(now: datetime, hours: QuietHours, zone: str) -> datetime | None:
    """Give the instant at which the quiet that reigns now ends; None if there is none.

    Args:
        now: aware instant.
        hours: the quiet hours.
        zone: the time zone whose wall clock they go by.

    Returns:
        An aware UTC instant after ``now`` that is not quiet itself. An end that comes twice
        (clocks put back) is the first that is not past; one that never comes (clocks put forward)
        is as long after the change as the clock would have shown.
    """
    if not hours.hold(_wall(now, zone)):
        return None
    first = local_day(now, zone)
    ends = (
        datetime.combine(first + ahead * _DAY, hours.end, ZoneInfo(zone)).replace(fold=fold)
        for ahead in range(4)
        for fold in (0, 1)
    )
    instants = (end.astimezone(UTC) for end in ends)
    return min(end for end in instants if end > now and not hours.hold(_wall(end, zone)))


def _wall(instant: datetime, zone: str) -> time:
    return instant.astimezone(ZoneInfo(zone)).time()


def put_off_quiet(session: Session, rows: Sequence[Row[Any]], now: datetime) -> list[Row[Any]]:
    """Put off what falls into its person's quiet hours; gives the rest.

    An answer never waits, nor what goes beside it: its person wrote just now.
    """
    ends = _ends(session, [row for row in rows if not _is_answer(row)], now)
    if ends:
        put_off = [{"row": row, "end": end} for row, end in ends.items()]
        connection_of(session).execute(_PUT_OFF, put_off)
    return [row for row in rows if row.id not in ends]


def _is_answer(row: Row[Any]) -> bool:
    return bool(row.queue == SendQueue.ANSWERS or row.purpose in _BESIDE_AN_ANSWER)


def look_anew(session: Session, person_id: int, now: datetime) -> None:
    """Let what waits for a person's quiet hours be looked at by the hours they have now."""
    waits = (OutboxRow.person_id == person_id) & OutboxRow.quiet_until.is_not(None)
    planned = update(OutboxRow).where(waits, IS_PLANNED)
    session.execute(planned.values(next_try_at=now, quiet_until=None))


def _ends(session: Session, rows: Sequence[Row[Any]], now: datetime) -> dict[int, datetime]:
    whose = {row.person_id for row in rows if row.person_id is not None}
    if not whose:
        return {}
    found = session.execute(people_with_yards().where(PersonRow.id.in_(whose)))
    people = {row.id: person_of(row) for row in found}
    ends = {}
    for row in rows:
        if row.person_id is not None:
            person = people[row.person_id]
            hours = quiet_on if row.purpose in _WITH_THE_MORNING else usual_quiet
            end = quiet_end(now, hours(row.channel, person), person.zone)
            if end is not None:
                ends[row.id] = end
    return ends
