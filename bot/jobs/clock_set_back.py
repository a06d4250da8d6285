"""What a clock that was set back has put off too far is due again.

A clock may be an hour wrong, or by years on a small machine that starts without a battery. What
was written down then waits for an instant that will not come for as long.
"""

from collections.abc import Iterator
from datetime import datetime, timedelta

from sqlalchemy import ColumnElement, Engine, and_, delete, exists, or_, select, update
from sqlalchemy.orm import Session

from bot.delivery.inbox import InboxState
from bot.delivery.message_tables import (
    IS_CLAIMED,
    IS_PLANNED,
    InboxRow,
    OutboxRow,
    RateLimitRow,
)
from bot.delivery.rate_limit import AHEAD
from bot.delivery.rules import LEASE, LONGEST_WAIT
from bot.monitoring import HeartbeatRow
from bot.program_log import log_of
from bot.reading.lexicon.measures import LONGEST_MINUTES
from bot.weather.refresh import LONGEST_LEFT_ALONE
from scheduling.records.engine import writing
from scheduling.records.tables import PersonRow
from scheduling.records.weather_asked import ask_what_is_put_off_beyond
from scheduling.wall_time import next_at

log = log_of(__name__)

APART = timedelta(minutes=1)
"""How far the clocks of two workers may be apart without one seeing the other's future."""

FARTHEST_MORNING = timedelta(days=3)
"""A morning is at most so far ahead, also for who moved across the date line."""

LONGEST_FALLBACK = timedelta(minutes=LONGEST_MINUTES)
"""How long a person may have a message wait before it goes over their next channel."""

LONGEST_QUIET = timedelta(days=2)
"""Quiet hours end within a day, or two where a change of clocks skips a date."""


def due_again(engine: Engine, now: datetime) -> int:
    """Put right whatever waits for longer than it ever should; gives how much that was."""
    with writing(engine) as session:
        found = sum(_put_right(session, now))
    if found:
        log.warning("the clock was set back, what waited for too late is due again", number=found)
    return found


def _put_right(session: Session, now: datetime) -> Iterator[int]:
    yield _rate_limits(session, now)
    yield _messages_out(session, now)
    yield _leases(session, now)
    yield _fallbacks(session, now)
    yield _messages_in(session, now)
    yield _signs_of_life(session, now)
    yield _mornings(session, now)
    yield ask_what_is_put_off_beyond(session, now + LONGEST_LEFT_ALONE, now)


def _rate_limits(session: Session, now: datetime) -> int:
    late = delete(RateLimitRow).where(RateLimitRow.noted_at > now + APART)
    return len(session.scalars(late.returning(RateLimitRow.address)).all())


def _messages_out(session: Session, now: datetime) -> int:
    early = OutboxRow.planned_at > now + APART
    which = (OutboxRow.next_try_at > now) & or_(early, OutboxRow.next_try_at > now + LONGEST_WAIT)
    waits = or_(_asked_to_wait(), _kept_quiet(now))
    return _change(session, IS_PLANNED & which & ~waits, next_try_at=now)


def _asked_to_wait() -> ColumnElement[bool]:
    """Tell what the carrier itself asked to be put off."""
    whom = (RateLimitRow.channel == OutboxRow.channel) & RateLimitRow.address.in_(
        (OutboxRow.address, "")
    )
    return exists(
        select(RateLimitRow).where(whom, RateLimitRow.asked_until >= OutboxRow.next_try_at)
    )


def _kept_quiet(now: datetime) -> ColumnElement[bool]:
    """Tell what waits for the end of quiet hours, of which each night has one."""
    soon = OutboxRow.quiet_until <= now + LONGEST_QUIET
    known = OutboxRow.quiet_until.is_not(None)
    return and_(known, soon, OutboxRow.next_try_at <= OutboxRow.quiet_until)


def _leases(session: Session, now: datetime) -> int:
    """Let a lease end as late as one that begins now, since its send may be under way."""
    far = OutboxRow.lease_until > now + AHEAD + LEASE + APART
    return _change(session, IS_CLAIMED & far, lease_until=now + LEASE)


def _fallbacks(session: Session, now: datetime) -> int:
    """Send on at once what would wait for longer than anybody may ask for."""
    return _change(session, OutboxRow.fallback_at > now + LONGEST_FALLBACK, fallback_at=now)


def _change(session: Session, which: ColumnElement[bool], **values: datetime) -> int:
    # Rows that a sender has in hand are left to it, until the next time.
    free = select(OutboxRow).where(which).with_for_update(skip_locked=True)
    rows = session.scalars(free).all()
    for row in rows:
        for name, value in values.items():
            setattr(row, name, value)
    session.flush()
    return len(rows)


def _messages_in(session: Session, now: datetime) -> int:
    waits = InboxRow.state == InboxState.WAITING
    early = update(InboxRow).where(waits, InboxRow.received_at > now + APART)
    changed = early.values(received_at=now).returning(InboxRow.id)
    return len(session.scalars(changed).all())


def _signs_of_life(session: Session, now: datetime) -> int:
    early = delete(HeartbeatRow).where(HeartbeatRow.at > now + APART)
    return len(session.scalars(early.returning(HeartbeatRow.name)).all())


def _mornings(session: Session, now: datetime) -> int:
    far = PersonRow.next_morning_at > now + FARTHEST_MORNING
    rows = session.scalars(select(PersonRow).where(far, PersonRow.stopped.is_(False))).all()
    for row in rows:
        row.next_morning_at = next_at(now, row.morning, row.zone)
    session.flush()
    return len(rows)
