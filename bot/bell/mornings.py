"""The morning tick: whose morning has come, and what they are told."""

from dataclasses import replace
from datetime import datetime

from sqlalchemy import Engine
from sqlalchemy.orm import Session

from bot.bell.wall_time import end_of_day, instant_of, local_day, next_at
from bot.desk.cautioning import caution_if_due
from bot.desk.mornings import morning_of
from bot.desk.talk import load_talk, save_talk
from bot.post.outbox import Purpose, Recipient, plan
from scheduling.records.addresses import mornings_due
from scheduling.records.engine import writing
from scheduling.records.gateway import CrewRecords
from scheduling.records.people import Person

_AT_ONCE = 50
"""People whose mornings are queued in one transaction; replies wait no longer than that takes."""


def ring_mornings(engine: Engine, now: datetime) -> int:
    """Queue the mornings that are due; returns how many people were looked at."""
    rung = 0
    while True:
        with writing(engine) as session:
            due = mornings_due(session, now, _AT_ONCE)
            for person in due:
                _ring(session, person, now)
        rung += len(due)
        if len(due) < _AT_ONCE:
            return rung


def _ring(session: Session, person: Person, now: datetime) -> None:
    """Queue today's morning once, unless its hour has not come (after days of being down)."""
    records = CrewRecords(session, person.crew_id)
    day = local_day(now, person.zone)
    if instant_of(day, person.morning, person.zone) <= now:
        _tell(session, records, person, now)
    following = next_at(now, person.morning, person.zone)
    records.update_person(person.id, next_morning_at=following)


def _tell(session: Session, records: CrewRecords, person: Person, now: datetime) -> None:
    reached = records.addresses(person.id)
    day = local_day(now, person.zone)
    message = morning_of(records, person, day).message
    if not reached or message is None:
        return
    to = Recipient(reached[0].channel, reached[0].address, person.id)
    caution_if_due(session, person, to, now)
    key, until = f"morning:{person.id}:{day}", end_of_day(day, person.zone)
    plan(session, key, Purpose.MORNING, to, message.letter(to.address), now, until)
    talk = replace(load_talk(session, person.id), more=message.parts[1:])
    save_talk(session, person.id, talk)
