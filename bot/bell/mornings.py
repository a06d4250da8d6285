"""The morning tick: whose morning has come, and what they are told."""

from collections.abc import Collection
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from sqlalchemy import Engine, func, select
from sqlalchemy.orm import Session

from bot.bell.missed import keep_missed, missed_words, morning_key
from bot.bell.wall_time import end_of_day, instant_of, local_day, next_at
from bot.channels.sms.phone_number import CHANNEL_NAME as BY_TEXT
from bot.desk.cautioning import caution_if_due
from bot.desk.conversation_state import load_state, save_state
from bot.desk.mornings import morning_of
from bot.events import log_of
from bot.post.crew_named import crew_said
from bot.post.outbox import plan
from bot.post.recipients import Recipient, next_address
from bot.post.rules import OutboxState, Purpose
from bot.post.sms_budget import SmsBudget, next_month
from bot.post.tables import OutboxRow
from bot.watch.counters import Counted, count
from bot.wording.alerts import no_answers_by_text
from bot.wording.crews_named import buttons_of, under_crew
from scheduling.records.addresses import (
    in_several_crews,
    mornings_due,
    reached_people,
    settle_mornings,
)
from scheduling.records.engine import writing
from scheduling.records.gateway import CrewRecords
from scheduling.records.people import Person

log = log_of(__name__)

_AT_ONCE = 50
"""People whose mornings are queued in one transaction; replies wait no longer than that takes."""


_TRY_AGAIN = timedelta(minutes=10)
"""How long after an error a person's morning is worked out anew."""


@dataclass(frozen=True)
class _Round:
    """What is the same for all mornings of a round.

    ``several`` are the people who are in several crews, and are told whose a morning is.
    """

    now: datetime
    running: Collection[str]
    sms_budget: SmsBudget | None
    several: Collection[int]


def ring_mornings(
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
    rung = 0
    while some := ring_some(engine, now, running, sms_budget):
        rung += some
    return rung


def ring_some(
    engine: Engine,
    now: datetime,
    running: Collection[str] = (),
    sms_budget: SmsBudget | None = None,
) -> int:
    """Queue the mornings of the next few people who are due; 0 when nobody is."""
    with writing(engine) as session:
        due = mornings_due(session, now, _AT_ONCE)
        if not due:
            return 0
        people = [person.id for person in due]
        reached = reached_people(session, people)
        round_ = _Round(now, running, sms_budget, in_several_crews(session, people))
        following = {}
        for person in due:
            # Of somebody whom nothing reaches there is no morning to work out.
            heard = person.id not in reached or _rung(session, person, round_)
            following[person.id] = _following(person, now) if heard else now + _TRY_AGAIN
        settle_mornings(session, following)
    count(Counted.MORNINGS, len(due))
    log.info("mornings looked at", people=len(due))
    return len(due)


def _following(person: Person, now: datetime) -> datetime:
    try:
        return next_at(now, person.morning, person.zone)
    except Exception:
        log.exception("a morning has no hour, it is tried again", person=person.id)
        return now + _TRY_AGAIN


def _rung(session: Session, person: Person, round_: _Round) -> bool:
    """Keep an error in one person's morning from holding up everybody else's; False after one."""
    try:
        with session.begin_nested():
            _ring(session, person, round_)
    except Exception:
        log.exception("a morning failed, it is tried again", person=person.id)
        return False
    return True


def _ring(session: Session, person: Person, round_: _Round) -> None:
    """Queue today's morning once, unless its hour has not come (after days of being down)."""
    records = CrewRecords(session, person.crew_id)
    day, now = local_day(round_.now, person.zone), round_.now
    to = next_address(records, person.id, round_.running)
    if to is not None:
        keep_missed(session, records, person, to, now)
    if to is not None and instant_of(day, person.morning, person.zone) <= now:
        crew = crew_said(session, person.id) if person.id in round_.several else ""
        before = [missed_words(session, person, now), _used_up_words(session, to, round_)]
        said = under_crew(crew, " ".join(filter(None, before)))
        _tell(session, records, person, to, now, said, crew)


def _used_up_words(session: Session, to: Recipient, round_: _Round) -> str:
    """Say that answers do not come by text, of a morning that does."""
    sms_budget = round_.sms_budget
    if (
        sms_budget is None
        or to.channel != BY_TEXT
        or not sms_budget.is_reached(session, round_.now)
    ):
        return ""
    return no_answers_by_text(next_month(round_.now).date())


def _tell(
    session: Session,
    records: CrewRecords,
    person: Person,
    to: Recipient,
    now: datetime,
    before: str,
    crew: str,
) -> None:
    day = local_day(now, person.zone)
    message = morning_of(records, person, day, to.channel, before).message
    if message is None:
        return
    caution_if_due(session, person, to, now)
    key, until = _key(session, person, day), end_of_day(day, person.zone)
    letter = (buttons_of(crew, message) if crew else message).letter(to.address)
    if plan(session, key, Purpose.MORNING, to, letter, now, until, about=day):
        talk = replace(load_state(session, person.id), more=message.parts[1:])
        save_state(session, person.id, talk)


def _key(session: Session, person: Person, day: date) -> str:
    """Name the morning; one whose address was gone is queued anew, for the next address."""
    of_day = select(func.count()).where(OutboxRow.person_id == person.id, OutboxRow.about == day)
    mornings = of_day.where(OutboxRow.purpose == Purpose.MORNING)
    refused = session.scalar(mornings.where(OutboxRow.state == OutboxState.FAILED)) or 0
    key = morning_key(person, day)
    return f"{key}>{refused}" if refused else key
