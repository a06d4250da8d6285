"""What does not get through: overdue messages, and channels that take nothing for long.

Nobody's message being due is no silence, nor is one person's refusal: a channel is silent while
messages wait for it, or ended without anybody knowing whether they arrived, and it took none.
A channel that no program has run is not spoken of: its people read their messages elsewhere.
"""

from collections.abc import Collection, Iterator, Mapping
from datetime import datetime, timedelta

from sqlalchemy import ColumnElement, Select, func, literal_column, or_, select
from sqlalchemy.orm import InstrumentedAttribute, Session

from bot.channels.channel import OutgoingMessage
from bot.delivery.inbox import InboxState
from bot.delivery.message_tables import IS_CLAIMED, IS_PLANNED, InboxRow, OutboxRow, is_open
from bot.delivery.notices_to_owners import owners_of
from bot.delivery.outbox import plan
from bot.delivery.rules import LONGEST_WAIT, Purpose
from bot.monitoring import beats_in, running_name, sent_name, write_beats
from bot.program_log import log_of
from bot.wording.alerts import nothing_sent
from scheduling.records.locks import hold_lock
from scheduling.records.tables import PersonRow

log = log_of(__name__)

LONG = timedelta(hours=1)
"""How long nothing may get through before the owners are told."""

_IN_DOUBT: tuple[ColumnElement[str], ...] = (
    literal_column("'unknown'"),
    literal_column("'expired'"),
)
"""States of messages of which nobody knows that they arrived; as the index says it."""

_RUNNING = running_name("")


def silent_since(
    session: Session, now: datetime, beats: Mapping[str, datetime], long: timedelta = LONG
) -> dict[str, datetime]:
    """Give the channels that took nothing for long, each with the instant that began at.

    Args:
        session: a transaction.
        now: aware instant.
        beats: the heartbeats in the database.
        long: from which length on a silence counts.
    """
    found = {}
    ever_run = [name.removeprefix(_RUNNING) for name in beats if name.startswith(_RUNNING)]
    for channel in ever_run:
        last = beats.get(sent_name(channel))
        first = _first_not_sent(session, channel, last, now)
        since = first if first is None or last is None else max(first, last)
        if since is not None and since <= now - long:
            found[channel] = since
    return found


def tell_of_silence(session: Session, now: datetime, running: Collection[str]) -> list[str]:
    """Tell the owners of the crews concerned, once a silence; give the channels told of now.

    They are told over another running channel, where they have one.
    """
    hold_lock(session, "silence")
    beats, told = beats_in(session), []
    for channel, since in silent_since(session, now, beats).items():
        last = beats.get(sent_name(channel))
        before = beats.get(_told_name(channel))
        if before is not None and (last is None or before > last):
            continue
        write_beats(session, {_told_name(channel): now})
        others = [name for name in running if name != channel]
        for person, to in owners_of(session, _waiting_crews(channel), others, (channel,)):
            if to.channel not in others:
                continue
            outgoing = OutgoingMessage(to.address, nothing_sent(channel, since, person.zone, now))
            key = f"silence:{channel}:{since:%Y%m%dT%H%M%S}:{person.id}"
            plan(session, key, Purpose.ALERT, to, outgoing, now)
        told.append(channel)
        log.error("nothing could be sent for long", channel=channel, since=f"{since:%FT%TZ}")
    return told


def _told_name(channel: str) -> str:
    return f"silence:{channel}"


def _first_not_sent(
    session: Session, channel: str, last: datetime | None, now: datetime
) -> datetime | None:
    """Give when the first was planned of what was to be sent since the channel last took something.

    One question for each index: of an "or" the database would look at every message there is.
    """
    # An alert that does not get through would make alerts of alerts.
    counts = OutboxRow.purpose.not_in((Purpose.ALERT, Purpose.EDIT))
    of_channel = (OutboxRow.channel == channel) & counts
    first = select(func.min(OutboxRow.planned_at)).where(of_channel)
    tried = OutboxRow.attempts > 0
    waits = is_open() & or_(tried, OutboxRow.next_try_at <= now)
    in_doubt = OutboxRow.state.in_(_IN_DOUBT) & tried
    if last is not None:
        # A try is never before the planning; the index knows the tries.
        in_doubt &= (OutboxRow.next_try_at > last) & (OutboxRow.planned_at > last)
    found = [session.scalar(first.where(which)) for which in (waits, in_doubt)]
    return min((at for at in found if at is not None), default=None)


def _waiting_crews(channel: str) -> Select[int]:
    waits = select(PersonRow.crew_id).join(OutboxRow, OutboxRow.person_id == PersonRow.id)
    return waits.where(OutboxRow.channel == channel, is_open())


LONG_OVERDUE = 2 * LONGEST_WAIT
"""How long a message may be overdue before something must be wrong."""


def overdue(session: Session, now: datetime, long: timedelta = LONG_OVERDUE) -> Iterator[str]:
    """Name messages in that nobody works through, and messages out that nobody sends."""
    since = now - long
    yield from _lines(
        session,
        "messages in wait to be worked through",
        InboxRow.received_at,
        (InboxRow.state == InboxState.WAITING) & (InboxRow.received_at <= since),
    )
    yield from _lines(
        session,
        "messages out wait to be sent",
        OutboxRow.next_try_at,
        IS_PLANNED & (OutboxRow.next_try_at <= since),
    )
    yield from _lines(
        session,
        "messages out were begun to be sent and not ended",
        OutboxRow.lease_until,
        IS_CLAIMED & (OutboxRow.lease_until <= since),
    )


def _lines(
    session: Session,
    what: str,
    instant: InstrumentedAttribute[datetime] | InstrumentedAttribute[datetime | None],
    which: ColumnElement[bool],
) -> Iterator[str]:
    count, first = session.execute(select(func.count(), func.min(instant)).where(which)).one()
    if count:
        yield f"{count} {what}, the first since {first:%Y-%m-%d %H:%M} UTC"
