"""How the program stands, read from the database alone, whoever asks.

Part of it are the segments of SMS sent to each person in a month: what the carrier charges for.
"""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

from sqlalchemy import Select, func, select
from sqlalchemy.orm import Session

from bot.channels.sms.segments import segments
from bot.delivery.inbox import InboxState
from bot.delivery.message_tables import (
    IS_CLAIMED,
    IS_PLANNED,
    InboxRow,
    OutboxRow,
    is_charged,
)
from bot.delivery.rules import OPEN, OutboxState
from bot.delivery.silent_channels import silent_since
from bot.delivery.sms_budget import used_in_month
from bot.monitoring import beats_in
from bot.web.unreached import Unreached, who_was_not_reached
from scheduling.records.founding_codes import open_founding_codes
from scheduling.records.tables import PersonRow, YardRow
from scheduling.records.weather_days import WeatherAskedRow
from scheduling.records.wrong_codes import wrong_codes_of_the_day
from scheduling.wall_time import local_day

_A_DAY = timedelta(days=1)


@dataclass(frozen=True)
class TextsSent:
    """What went to one person over SMS in one month.

    Attributes:
        number: the person's; 0 for all who have not joined.
        name: the person's; empty for those.
        month: its first day, by the person's own zone.
        segments: how many, each once, though a repeat in doubt may be charged twice.
    """

    number: int
    name: str
    month: date
    segments: int


def texts_sent(session: Session, now: datetime) -> tuple[TextsSent, ...]:
    """Count what went out in this month and the one before, the newest first.

    Args:
        session: a transaction.
        now: aware instant.
    """
    begins = _month(_month(now.date()) - _A_DAY)
    counted: Counter[tuple[date, int, str]] = Counter()
    for text, ended_at, number, name, zone in session.execute(_sent_since(begins)):
        month = _month(local_day(ended_at or now, zone or "UTC"))
        if month >= begins:
            counted[month, number or 0, name or ""] += segments(text)
    by_month = sorted(counted.items(), key=lambda of: (-of[0][0].toordinal(), of[0][1]))
    return tuple(TextsSent(number, name, month, count) for (month, number, name), count in by_month)


def _sent_since(day: date) -> Select[str, datetime | None, int, str, str]:
    # A zone may be a day behind or ahead of UTC.
    since = datetime(day.year, day.month, day.day, tzinfo=UTC) - _A_DAY
    return (
        select(OutboxRow.text, OutboxRow.ended_at, PersonRow.id, PersonRow.name, PersonRow.zone)
        .outerjoin(PersonRow, PersonRow.id == OutboxRow.person_id)
        .where(is_charged(), OutboxRow.ended_at >= since)
    )


def _month(day: date) -> date:
    return day.replace(day=1)


@dataclass(frozen=True)
class DueNext:
    """Whose morning comes next; ``at`` is aware, ``zone`` the person's."""

    number: int
    name: str
    at: datetime
    zone: str


@dataclass(frozen=True)
class YardAsked:
    """When a yard's weather was last answered, and how many times in a row it has not been."""

    crew: int
    yard: str
    answered_at: datetime | None
    failures: int


@dataclass(frozen=True)
class Status:
    """How the program stands at an instant.

    Attributes:
        now: aware instant.
        people: how many there are.
        overdue: how many mornings have come and were not looked at.
        due_next: whose mornings come next, soonest first.
        outbox: messages out by state: all that wait, and those that ended within a day.
        oldest_waiting: since when the longest waiting message out has been planned.
        inbox: messages in by state.
        beats: when each thing last happened.
        yards: the weather of the yards that have a place.
        silent: channels over which nothing gets through, and since when.
        texts: segments of SMS sent in this month and the one before, by person.
        texts_used: segments of SMS sent in this month of UTC.
        founding_codes: how many codes may still found a crew.
        wrong_codes: how many wrong codes were tried within a day.
        quiet: messages out that wait for the end of their person's quiet hours.
        unreached: who is not reached, or was not lately, the newest first.
    """

    now: datetime
    people: int
    overdue: int
    due_next: tuple[DueNext, ...]
    outbox: Mapping[str, int]
    oldest_waiting: datetime | None
    inbox: Mapping[str, int]
    beats: Mapping[str, datetime]
    yards: tuple[YardAsked, ...]
    silent: Mapping[str, datetime]
    texts: tuple[TextsSent, ...] = ()
    texts_used: int = 0
    quiet: int = 0
    unreached: tuple[Unreached, ...] = ()
    founding_codes: int = 0
    wrong_codes: int = 0


def status_of(
    session: Session, now: datetime, next_few: int = 5, *, with_texts: bool = True
) -> Status:
    """Read how the program stands; ``with_texts`` every text of two months is counted."""
    beats = beats_in(session)
    mornings = select(func.count()).select_from(PersonRow).where(PersonRow.left_at.is_(None))
    late = mornings.where(PersonRow.next_morning_at <= now, PersonRow.stopped.is_(False))
    return Status(
        now=now,
        people=session.scalar(mornings) or 0,
        overdue=session.scalar(late) or 0,
        due_next=_due_next(session, next_few),
        outbox=_outbox(session, now),
        oldest_waiting=_oldest_waiting(session),
        inbox=_inbox(session),
        beats=beats,
        yards=_yards(session),
        silent=silent_since(session, now, beats),
        texts=texts_sent(session, now) if with_texts else (),
        texts_used=used_in_month(session, now) if with_texts else 0,
        quiet=_quiet(session, now),
        unreached=who_was_not_reached(session, now),
        founding_codes=len(open_founding_codes(session, now)),
        wrong_codes=wrong_codes_of_the_day(session, now),
    )


def _due_next(session: Session, few: int) -> tuple[DueNext, ...]:
    soonest = (
        select(PersonRow)
        .where(PersonRow.next_morning_at.is_not(None), PersonRow.stopped.is_(False))
        .order_by(PersonRow.next_morning_at, PersonRow.id)
        .limit(few)
    )
    return tuple(
        DueNext(row.id, row.name, row.next_morning_at, row.zone)
        for row in session.scalars(soonest)
        if row.next_morning_at is not None
    )


def _outbox(session: Session, now: datetime) -> dict[str, int]:
    """Count by the indexes: to look at every message that ever went would take seconds."""
    number = select(func.count()).select_from(OutboxRow)
    of_open = zip(OPEN, (IS_PLANNED, IS_CLAIMED), strict=True)
    found = {str(state): session.scalar(number.where(which)) or 0 for state, which in of_open}
    ended = select(OutboxRow.state, func.count()).where(OutboxRow.ended_at > now - _A_DAY)
    counted = session.execute(ended.group_by(OutboxRow.state))
    found |= {str(state): int(many) for state, many in counted}
    return {state: found.get(state, 0) for state in OutboxState}


def _inbox(session: Session) -> dict[str, int]:
    counted = session.execute(select(InboxRow.state, func.count()).group_by(InboxRow.state))
    found = {str(state): int(number) for state, number in counted}
    return {state: found.get(state, 0) for state in InboxState}


def _oldest_waiting(session: Session) -> datetime | None:
    return session.scalar(select(func.min(OutboxRow.planned_at)).where(IS_PLANNED))


def _quiet(session: Session, now: datetime) -> int:
    waits = select(func.count()).where(IS_PLANNED, OutboxRow.quiet_until > now)
    return session.scalar(waits) or 0


def _yards(session: Session) -> tuple[YardAsked, ...]:
    asked = (
        select(YardRow, WeatherAskedRow)
        .outerjoin(WeatherAskedRow, WeatherAskedRow.yard_id == YardRow.id)
        .where(YardRow.latitude.is_not(None), YardRow.removed_at.is_(None))
        .order_by(YardRow.crew_id, YardRow.name)
    )
    return tuple(
        YardAsked(
            yard.crew_id,
            yard.name,
            None if row is None else row.answered_at,
            0 if row is None else row.failures,
        )
        for yard, row in session.execute(asked)
    )
