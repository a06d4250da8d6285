"""Mornings that came to nothing: kept as expired, and named in the next one."""

from collections.abc import Iterator, Mapping
from datetime import date, datetime, timedelta

from sqlalchemy import select
from sqlalchemy.orm import Session

from bot.channels.reports import Delivery
from bot.conversation.work_out_morning import morning_of
from bot.delivery.claims import settle
from bot.delivery.message_tables import OutboxRow
from bot.delivery.outbox import Recipient, plan
from bot.delivery.rules import OutboxState, Purpose
from bot.wording.alerts import not_through
from bot.wording.message import Message
from scheduling.records.crew_records import CrewRecords
from scheduling.records.people import Person
from scheduling.wall_time import end_of_day, local_day

LOOKED_BACK = timedelta(days=7)
"""Mornings missed longer ago than this are not worked out any more, nor named."""


def missed_mornings(
    records: CrewRecords, person: Person, to: Recipient, now: datetime
) -> dict[date, Message]:
    """Work out what the days before would have brought on which no morning was queued."""
    found = {
        day: morning_of(records, person, day, to.channel).message
        for day in days_missed(person, now)
    }
    return {day: message for day, message in found.items() if message is not None}


def record_missed(
    session: Session,
    person: Person,
    to: Recipient,
    missed: Mapping[date, Message],
    now: datetime,
) -> None:
    """Write down mornings of the days before, as ones past their use."""
    for day, message in missed.items():
        key, past = morning_key(person, day), end_of_day(day, person.zone)
        outgoing = message.outgoing(to.address)
        plan(session, key, Purpose.MORNING, to, outgoing, now, past, about=day)
    settle(session, now)


def morning_key(person: Person, day: date) -> str:
    """Name a person's morning, so that it is queued once."""
    return f"morning:{person.id}:{day}"


def missed_words(session: Session, person: Person, now: datetime) -> str:
    """Name what did not get through since the last morning that did; "" for nothing."""
    today = local_day(now, person.zone)
    rows = _recent(session, person, today)
    sent = [row for row in rows if row.state == OutboxState.SENT and _is_morning(row)]
    arrived = [row for row in sent if row.delivery != Delivery.FAILED]
    last = max((row.ended_at for row in arrived if row.ended_at), default=None)
    since = [row for row in rows if row.ended_at and (last is None or row.ended_at > last)]
    lost = [row for row in since if _lost(row)]
    doubtful = [row for row in since if row.state == OutboxState.UNKNOWN and _is_morning(row)]
    days = _days(row for row in lost if _is_morning(row))
    in_doubt = [day for day in _days(doubtful) if day not in days]
    return not_through(days, in_doubt, today, len(lost) - sum(map(_is_morning, lost)))


def days_missed(person: Person, now: datetime) -> Iterator[date]:
    """Give the days before today on which the person's morning was due and not queued."""
    if person.next_morning_at is None:
        return
    today = local_day(now, person.zone)
    day = max(local_day(person.next_morning_at, person.zone), today - LOOKED_BACK)
    while day < today:
        yield day
        day += timedelta(days=1)


def _recent(session: Session, person: Person, today: date) -> list[OutboxRow]:
    mine = select(OutboxRow).where(OutboxRow.person_id == person.id)
    recent = mine.where(OutboxRow.about >= today - LOOKED_BACK, OutboxRow.about <= today)
    return list(session.scalars(recent.order_by(OutboxRow.about, OutboxRow.id)))


def _is_morning(row: OutboxRow) -> bool:
    return row.purpose == Purpose.MORNING


def _lost(row: OutboxRow) -> bool:
    """Tell what surely did not arrive from what was sent or taken back (by a stop)."""
    if row.state == OutboxState.FAILED or row.delivery == Delivery.FAILED:
        return True
    ended, use = row.ended_at, row.useful_until
    return row.state == OutboxState.EXPIRED and bool(ended and use and ended >= use)


def _days(rows: Iterator[OutboxRow] | list[OutboxRow]) -> list[date]:
    return sorted({row.about for row in rows if row.about is not None})
