"""How the program stands, read from the database alone, whoever asks."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from bot.post.ceiling import used_in_month
from bot.post.inbox import InboxState
from bot.post.rules import OutboxState
from bot.post.tables import InboxRow, OutboxRow
from bot.watch.heartbeats import beats_in
from bot.watch.silence import silent_since
from bot.watch.texts_sent import TextsSent, texts_sent
from scheduling.records.tables import PersonRow, YardRow
from scheduling.records.weather_tables import WeatherAskedRow


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
        outbox: messages out by state.
        oldest_waiting: since when the longest waiting message out has been planned.
        inbox: messages in by state.
        beats: when each thing last happened.
        yards: the weather of the yards that have a place.
        silent: channels over which nothing gets through, and since when.
        texts: segments of SMS sent in this month and the one before, by person.
        texts_used: segments of SMS sent in this month of UTC.
        quiet: messages out that wait for the end of their person's quiet hours.

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


def status_of(session: Session, now: datetime, next_few: int = 5) -> Status:
    """Read how the program stands."""
    beats = beats_in(session)
    mornings = select(func.count()).select_from(PersonRow)
    late = mornings.where(PersonRow.next_morning_at <= now, PersonRow.stopped.is_(False))
    return Status(
        now=now,
        people=session.scalar(mornings) or 0,
        overdue=session.scalar(late) or 0,
        due_next=_due_next(session, next_few),
        outbox=_outbox(session),
        oldest_waiting=_oldest_waiting(session),
        inbox=_inbox(session),
        beats=beats,
        yards=_yards(session),
        silent=silent_since(session, now, beats),
        texts=texts_sent(session, now),
        texts_used=used_in_month(session, now),
        quiet=_quiet(session, now),
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


def _outbox(session: Session) -> dict[str, int]:
    counted = session.execute(select(OutboxRow.state, func.count()).group_by(OutboxRow.state))
    found = {str(state): int(number) for state, number in counted}
    return {state: found.get(state, 0) for state in OutboxState}


def _inbox(session: Session) -> dict[str, int]:
    counted = session.execute(select(InboxRow.state, func.count()).group_by(InboxRow.state))
    found = {str(state): int(number) for state, number in counted}
    return {state: found.get(state, 0) for state in InboxState}


def _oldest_waiting(session: Session) -> datetime | None:
    waits = select(func.min(OutboxRow.planned_at)).where(OutboxRow.state == OutboxState.PLANNED)
    return session.scalar(waits)


def _quiet(session: Session, now: datetime) -> int:
    waits = select(func.count()).where(OutboxRow.state == OutboxState.PLANNED)
    return session.scalar(waits.where(OutboxRow.quiet_until > now)) or 0


def _yards(session: Session) -> tuple[YardAsked, ...]:
    asked = (
        select(YardRow, WeatherAskedRow)
        .outerjoin(WeatherAskedRow, WeatherAskedRow.yard_id == YardRow.id)
        .where(YardRow.latitude.is_not(None))
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
