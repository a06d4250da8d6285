"""Messages that must wait until their person's quiet hours end."""

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from sqlalchemy import Row, bindparam, update
from sqlalchemy.orm import Session

from bot.post.quiet_hours import quiet_end, quiet_on, usual_quiet
from bot.post.rules import OutboxState, Purpose, SendQueue
from bot.post.tables import OutboxRow
from scheduling.records.connection import connection_of
from scheduling.records.people import people_with_yards, person_of
from scheduling.records.tables import PersonRow, table_of

_PUT_OFF = (
    update(table_of(OutboxRow))
    .where(OutboxRow.id == bindparam("row"))
    .values(next_try_at=bindparam("end"), quiet_until=bindparam("end"))
)

_WITH_THE_MORNING = (Purpose.MORNING, Purpose.CAUTION)
"""What comes at an hour that the person asked for; the caution is to come before the morning."""


def put_off_quiet(session: Session, rows: Sequence[Row[Any]], now: datetime) -> list[Row[Any]]:
    """Put off what falls into its person's quiet hours; gives the rest.

    An answer never waits, nor the caution beside it: its person wrote just now.
    """
    ends = _ends(session, [row for row in rows if not _is_answer(row)], now)
    if ends:
        put_off = [{"row": row, "end": end} for row, end in ends.items()]
        connection_of(session).execute(_PUT_OFF, put_off)
    return [row for row in rows if row.id not in ends]


def _is_answer(row: Row[Any]) -> bool:
    return bool(row.queue == SendQueue.ANSWERS or row.purpose == Purpose.FIRST_CAUTION)


def look_anew(session: Session, person_id: int, now: datetime) -> None:
    """Let what waits for a person's quiet hours be looked at by the hours they have now."""
    waits = (OutboxRow.person_id == person_id) & OutboxRow.quiet_until.is_not(None)
    planned = update(OutboxRow).where(waits, OutboxRow.state == OutboxState.PLANNED)
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
