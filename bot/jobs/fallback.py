"""Reminders whose time to arrive ran out, or that failed, go over the person's next channel."""

from collections.abc import Collection
from datetime import datetime

from sqlalchemy import Engine, select
from sqlalchemy.orm import Session

from bot.channels.channel import OutgoingMessage
from bot.conversation.work_out_morning import morning_of
from bot.delivery.message_tables import OutboxRow
from bot.delivery.outbox import Recipient, crew_said, next_address, send_on, was_sent_on
from bot.delivery.rules import OutboxState, Purpose
from bot.wording.crews_named import under_crew
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import writing
from scheduling.records.people import Person
from scheduling.records.tables import PersonRow
from scheduling.wall_time import local_day

_AT_ONCE = 50


def fall_back(engine: Engine, now: datetime, running: Collection[str] = ()) -> int:
    """Send on what did not arrive in its time; gives how many messages were looked at.

    What still waits to be sent is withdrawn first, so that it never comes on both channels; what
    is being sent right now is left to the next look.

    Args:
        engine: the database.
        now: aware instant.
        running: names of the channels that run, whose addresses go before others.
    """
    with writing(engine) as session:
        late = select(OutboxRow).where(OutboxRow.fallback_at.is_not(None))
        late = late.where(OutboxRow.fallback_at <= now, OutboxRow.state != OutboxState.CLAIMED)
        late = late.order_by(OutboxRow.fallback_at, OutboxRow.id).limit(_AT_ONCE)
        rows = session.scalars(late.with_for_update(skip_locked=True)).all()
        for row in rows:
            row.fallback_at = None
            _fall_back(session, row, now, running)
    return len(rows)


def _fall_back(session: Session, row: OutboxRow, now: datetime, running: Collection[str]) -> None:
    of_no_use = row.useful_until is not None and row.useful_until <= now
    if was_sent_on(row):
        return
    owner = None if row.person_id is None else session.get_one(PersonRow, row.person_id)
    if owner is None or owner.stopped or of_no_use or row.state == OutboxState.EXPIRED:
        return
    records = CrewRecords(session, owner.crew_id)
    person = records.person(owner.id)
    to = next_address(records, person.id, running, but_of=(row.channel,))
    if to is None:
        return
    if row.state == OutboxState.PLANNED:
        row.state, row.ended_at = OutboxState.EXPIRED, now
    outgoing = OutgoingMessage(to.address, _words(session, records, person, row, to, now))
    send_on(session, row, to, outgoing, now)


def _words(
    session: Session,
    records: CrewRecords,
    person: Person,
    row: OutboxRow,
    to: Recipient,
    now: datetime,
) -> str:
    """A morning of today is worded anew, since how much may be said hangs on the channel."""
    if row.purpose == Purpose.MORNING and row.about == local_day(now, person.zone):
        crew = under_crew(crew_said(session, person.id))
        anew = morning_of(records, person, row.about, to.channel, crew).message
        if anew is not None:
            return anew.text
    return row.text
