"""The morning tick: whose morning has come, and what they are told."""

from collections.abc import Collection
from dataclasses import replace
from datetime import date, datetime, timedelta

from sqlalchemy import Engine, func, select
from sqlalchemy.orm import Session

from bot.bell.missed import keep_missed, missed_words, morning_key
from bot.bell.wall_time import end_of_day, instant_of, local_day, next_at
from bot.desk.cautioning import caution_if_due
from bot.desk.mornings import morning_of
from bot.desk.talk import load_talk, save_talk
from bot.events import log_of
from bot.post.crew_named import crew_said
from bot.post.outbox import OutboxState, Purpose, Recipient, plan
from bot.post.reach import next_address
from bot.post.tables import OutboxRow
from bot.watch.tally import Counted, count
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


def ring_mornings(engine: Engine, now: datetime, running: Collection[str] = ()) -> int:
    """Queue the mornings that are due; returns how many people were looked at.

    Args:
        engine: the database.
        now: aware instant.
        running: names of the channels that run, whose addresses go before others.

    """
    rung = 0
    while some := ring_some(engine, now, running):
        rung += some
    return rung


def ring_some(engine: Engine, now: datetime, running: Collection[str] = ()) -> int:
    """Queue the mornings of the next few people who are due; 0 when nobody is."""
    with writing(engine) as session:
        due = mornings_due(session, now, _AT_ONCE)
        if not due:
            return 0
        reached = reached_people(session, [person.id for person in due])
        several = in_several_crews(session, [person.id for person in due])
        following = {}
        for person in due:
            # Of somebody whom nothing reaches there is no morning to work out.
            named = person.id in several
            heard = person.id not in reached or _rung(session, person, now, running, named=named)
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


def _rung(
    session: Session, person: Person, now: datetime, running: Collection[str], *, named: bool
) -> bool:
    """Keep an error in one person's morning from holding up everybody else's; False after one."""
    try:
        with session.begin_nested():
            _ring(session, person, now, running, named=named)
    except Exception:
        log.exception("a morning failed, it is tried again", person=person.id)
        return False
    return True


def _ring(
    session: Session, person: Person, now: datetime, running: Collection[str], *, named: bool
) -> None:
    """Queue today's morning once, unless its hour has not come (after days of being down).

    One that is ``named`` says whose crew it is of.
    """
    records = CrewRecords(session, person.crew_id)
    day = local_day(now, person.zone)
    to = next_address(records, person.id, running)
    if to is not None:
        keep_missed(session, records, person, to, now)
    if to is not None and instant_of(day, person.morning, person.zone) <= now:
        crew = crew_said(session, person.id) if named else ""
        _tell(session, records, person, to, now, crew)


def _tell(
    session: Session, records: CrewRecords, person: Person, to: Recipient, now: datetime, crew: str
) -> None:
    day = local_day(now, person.zone)
    before = under_crew(crew, missed_words(session, person, now))
    message = morning_of(records, person, day, to.channel, before).message
    if message is None:
        return
    caution_if_due(session, person, to, now)
    key, until = _key(session, person, day), end_of_day(day, person.zone)
    letter = (buttons_of(crew, message) if crew else message).letter(to.address)
    if plan(session, key, Purpose.MORNING, to, letter, now, until, about=day):
        talk = replace(load_talk(session, person.id), more=message.parts[1:])
        save_talk(session, person.id, talk)


def _key(session: Session, person: Person, day: date) -> str:
    """Name the morning; one whose address was gone is queued anew, for the next address."""
    of_day = select(func.count()).where(OutboxRow.person_id == person.id, OutboxRow.about == day)
    mornings = of_day.where(OutboxRow.purpose == Purpose.MORNING)
    refused = session.scalar(mornings.where(OutboxRow.state == OutboxState.FAILED)) or 0
    key = morning_key(person, day)
    return f"{key}>{refused}" if refused else key
