"""The morning tick: whose morning has come, and what they are told.

A morning is worked out in a transaction that only reads, mostly in the hour before it is due, and
queued in a short one of its own, so that no reply waits for anybody's calendar.
"""

from collections.abc import Collection
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from enum import Enum, auto

from sqlalchemy import Engine, func, select
from sqlalchemy.orm import Session

from bot.conversation.conversation_state import load_state, save_state
from bot.conversation.work_out_morning import caution_if_due
from bot.delivery.claims import settle
from bot.delivery.message_tables import OutboxRow
from bot.delivery.notices_to_owners import tell_left_out
from bot.delivery.outbox import Topic, next_address, plan
from bot.delivery.rules import OutboxState, Purpose
from bot.delivery.sms_budget import SmsBudget
from bot.jobs.missed_mornings import days_missed, missed_mornings, morning_key, record_missed
from bot.jobs.ready_mornings import (
    MorningAsked,
    ReadyMorning,
    asked_at,
    forget_ready,
    made_of,
    ready_morning,
    work_out_morning,
)
from bot.monitoring import Counted, count
from bot.program_log import log_of
from bot.wording.message import Message
from scheduling.records.addresses import (
    hold_if_still_due,
    people_due,
    reached_people,
    settle_mornings,
)
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import is_fault_of_database, reading, writing
from scheduling.records.locks import try_lock
from scheduling.records.people import Person
from scheduling.wall_time import end_of_day, instant_of, local_day, next_at

log = log_of(__name__)

_AT_ONCE = 50
"""People who are looked at in a row."""

_TRIES = 3
"""How often in a row a morning is worked out of which something is noted meanwhile."""

_TRY_AGAIN = timedelta(minutes=10)
"""How long after an error a person's morning is worked out anew."""


@dataclass(frozen=True)
class _Round:
    """What is the same for all mornings of a round; ``used_up`` is said of the month's texts."""

    engine: Engine
    now: datetime
    running: Collection[str]
    used_up: bool


class _Queued(Enum):
    """What came of trying to queue a morning."""

    DONE = auto()
    LEFT = auto()
    """It is another worker's, or is not due any more."""
    OUTDATED = auto()
    """It is to be worked out first."""


def queue_mornings(
    engine: Engine,
    now: datetime,
    running: Collection[str] = (),
    sms_budget: SmsBudget | None = None,
) -> int:
    """Queue the mornings that are due; returns how many people were looked at.

    Args:
        engine: the database.
        now: aware instant.
        running: names of the channels that run, whose addresses go before others.
        sms_budget: how many segments of SMS a month has; None for no end of them.
    """
    queued = 0
    while some := queue_some(engine, now, running, sms_budget):
        queued += some
    return queued


def queue_some(
    engine: Engine,
    now: datetime,
    running: Collection[str] = (),
    sms_budget: SmsBudget | None = None,
) -> int:
    """Queue the mornings of the next few people who are due, each in a transaction of its own.

    Returns how many people were done with; 0 when nobody is left to this worker.
    """
    with reading(engine) as session:
        due = people_due(session, now, _AT_ONCE)
        if not due:
            return 0
        reached = reached_people(session, [person.id for person in due])
        used_up = sms_budget is not None and sms_budget.is_reached(session, now)
    _pass_over(engine, [person for person in due if person.id not in reached], now)
    round_ = _Round(engine, now, running, used_up)
    queued = [_queued(round_, person) for person in due if person.id in reached]
    done = len(due) - len(reached) + sum(queued)
    count(Counted.MORNINGS, done)
    log.info("mornings looked at", people=done)
    return done


def _pass_over(engine: Engine, unreached: list[Person], now: datetime) -> None:
    """Go on to the next day with whom nothing reaches, and end what is past its use."""
    with writing(engine) as session:
        settle_mornings(session, {person.id: _following(person, now) for person in unreached})
        settle(session, now)


def _following(person: Person, now: datetime) -> datetime:
    try:
        return next_at(now, person.morning, person.zone)
    except Exception:
        log.exception("a morning has no hour, it is tried again", person=person.id)
        return now + _TRY_AGAIN


def _queued(round_: _Round, person: Person) -> bool:
    """Keep an error in one person's morning from holding up everybody else's."""
    try:
        return _queue(round_, person) is _Queued.DONE
    except Exception as error:
        if is_fault_of_database(error):
            raise
        log.exception("a morning failed, it is tried again", person=person.id)
    with writing(round_.engine) as session:
        settle_mornings(session, {person.id: round_.now + _TRY_AGAIN})
    return True


def _queue(round_: _Round, person: Person) -> _Queued:
    """Queue a morning as it was made ready, or work it out until nothing was noted meanwhile."""
    if any(days_missed(person, round_.now)) and not _keep_missed(round_, person):
        return _Queued.LEFT
    queued = _queue_ready(round_, person, None)
    for _ in range(_TRIES):
        if queued is not _Queued.OUTDATED:
            return queued
        ready = _worked_out(round_, person)
        queued = _Queued.LEFT if ready is None else _queue_ready(round_, person, ready)
    return queued


def _keep_missed(round_: _Round, person: Person) -> bool:
    """Write down the mornings of days on which nobody looked; False if another worker does."""
    with reading(round_.engine) as session:
        if not try_lock(session, _lock_of(person)):
            return False
        records = CrewRecords(session, person.crew_id)
        to = next_address(records, person.id, round_.running)
        missed = missed_mornings(records, person, to, round_.now) if to is not None else {}
    with writing(round_.engine) as session:
        if hold_if_still_due(session, person) is None:
            return False
        if to is not None:
            record_missed(session, person, to, missed, round_.now)
    return True


def _worked_out(round_: _Round, person: Person) -> ReadyMorning | None:
    """Work a morning out in a transaction that only reads; None if another worker does."""
    with reading(round_.engine) as session:
        asked = _asked(session, round_, person) if try_lock(session, _lock_of(person)) else None
        return None if asked is None else work_out_morning(session, asked)


def _lock_of(person: Person) -> str:
    return f"morning of {person.id}"


def _queue_ready(round_: _Round, person: Person, ready: ReadyMorning | None) -> _Queued:
    """Queue today's morning once, if it was made of all that is known by now.

    Before its hour (after days of being down) there is none to queue yet.
    """
    with writing(round_.engine) as session:
        current = hold_if_still_due(session, person)
        if current is None:
            return _Queued.LEFT
        asked = _asked(session, round_, current)
        if asked is not None:
            known = ready or ready_morning(session, person.id)
            if known is None or known.made_of != made_of(session, asked):
                return _Queued.OUTDATED
            if known.message is not None:
                _tell(session, asked, known.message, round_.now)
            tell_left_out(session, person.crew_id, known.left_out, round_.now, round_.running)
            forget_ready(session, person.id)
        settle_mornings(session, {person.id: _following(current, round_.now)})
    return _Queued.DONE


def _asked(session: Session, round_: _Round, person: Person) -> MorningAsked | None:
    """Give what today's morning is to be worked out for; None if it cannot come now."""
    records, now = CrewRecords(session, person.crew_id), round_.now
    current = records.person(person.id)
    to = next_address(records, person.id, round_.running)
    day = local_day(now, current.zone)
    if to is None or instant_of(day, current.morning, current.zone) > now:
        return None
    return asked_at(session, current, to, now, used_up=round_.used_up)


def _tell(session: Session, asked: MorningAsked, message: Message, now: datetime) -> None:
    person, to, day = asked.person, asked.to, asked.day
    caution_if_due(session, person, to, now)
    key, until = _key(session, person, day), end_of_day(day, person.zone)
    outgoing = message.outgoing(to.address)
    topic = Topic(places=message.places)
    if plan(session, key, Purpose.MORNING, to, outgoing, now, until, about=day, topic=topic):
        state = replace(load_state(session, person.id), more=message.parts[1:])
        save_state(session, person.id, state)


def _key(session: Session, person: Person, day: date) -> str:
    """Name the morning; one whose address was gone is queued anew, for the next address."""
    of_day = select(func.count()).where(OutboxRow.person_id == person.id, OutboxRow.about == day)
    mornings = of_day.where(OutboxRow.purpose == Purpose.MORNING)
    refused = session.scalar(mornings.where(OutboxRow.state == OutboxState.FAILED)) or 0
    key = morning_key(person, day)
    return f"{key}>{refused}" if refused else key
