"""Mornings made ready in the hour before they are due, so that nobody waits for others' calendars.

Each is kept (a cache) with a fingerprint of what it was worked out from. Whatever is noted
afterwards is seen when the morning is due: it is then worked out anew.
"""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from hashlib import sha256
from typing import Any

from sqlalchemy import JSON, Engine, ForeignKey, String, delete
from sqlalchemy.orm import Mapped, Session, mapped_column

from bot.channels.channel import Button
from bot.channels.traits import traits_of
from bot.conversation.work_out_morning import morning_of
from bot.delivery.notices_to_owners import tell_left_out
from bot.delivery.outbox import (
    Recipient,
    crew_said,
    next_address,
    places_from_json,
    places_to_json,
)
from bot.delivery.sms_budget import SmsBudget, next_month
from bot.jobs.missed_mornings import missed_words
from bot.program_log import log_of
from bot.version import version
from bot.wording.alerts import no_answers_by_text
from bot.wording.crews_named import buttons_of, under_crew
from bot.wording.message import Message
from scheduling.places import Place
from scheduling.records.addresses import claim_to_make_ready, is_any_to_make_ready
from scheduling.records.crew_records import CrewRecords, fingerprint_of
from scheduling.records.engine import is_fault_of_database, reading, writing
from scheduling.records.people import Person
from scheduling.records.tables import Base
from scheduling.records.upsert import upsert
from scheduling.wall_time import local_day

log = log_of(__name__)

READY_BEFORE = timedelta(hours=1)
"""How long before its instant a morning may be made ready."""

PROGRAM = version()
"""The program's version, since another one may word a morning otherwise."""

_AT_ONCE = 10
"""People whose mornings are made ready in a row."""


class ReadyMorningRow(Base):
    """A person's next morning, worded ahead; it is a cache, and losing it loses nothing."""

    __tablename__ = "ready_morning"

    person_id: Mapped[int] = mapped_column(ForeignKey("person.id"), primary_key=True)
    day: Mapped[date]
    made_of: Mapped[str] = mapped_column(String(64))
    """A hash of all that it was worked out from."""
    parts: Mapped[list[str]] = mapped_column(JSON)
    """The text and what ``more`` gives; none where nothing is due."""
    buttons: Mapped[list[Any]] = mapped_column(JSON)
    places: Mapped[list[list[str]] | None] = mapped_column(JSON(none_as_null=True))
    """The units that a reply which names none is about."""


@dataclass(frozen=True)
class MorningAsked:
    """Whose morning is to be worked out, and what is said before it.

    Attributes:
        person: whose.
        day: the local date.
        to: where it goes.
        crew: the name of the crew, for somebody who is in several; else "".
        before: what is said first.
    """

    person: Person
    day: date
    to: Recipient
    crew: str
    before: str


@dataclass(frozen=True)
class ReadyMorning:
    """A morning that was worked out.

    Attributes:
        day: the local date it is of.
        made_of: a hash of all that it was worked out from.
        message: what is said; None where nothing is due.
        left_out: what could not be worked out, of which the owners are told when it is kept.
    """

    day: date
    made_of: str
    message: Message | None
    left_out: tuple[Place, ...] = ()


def asked_at(
    session: Session, person: Person, to: Recipient, at: datetime, *, used_up: bool
) -> MorningAsked:
    """Give what the morning of a person is to be worked out for, at its instant.

    Args:
        session: a transaction.
        person: whose morning it is.
        to: where it goes.
        at: the instant.
        used_up: whether this month's texts are used up, so that answers do not come by text.
    """
    crew = crew_said(session, person.id)
    before = [missed_words(session, person, at)]
    if used_up and traits_of(to.channel).is_charged:
        before.append(no_answers_by_text(next_month(at).date()))
    said = under_crew(crew, " ".join(filter(None, before)))
    return MorningAsked(person, local_day(at, person.zone), to, crew, said)


def made_of(session: Session, asked: MorningAsked) -> str:
    """Give the hash of all that a morning hangs on, as it is now."""
    person = asked.person
    wants = (PROGRAM, person.name, person.feeder_litres, person.daily_word)
    said = (asked.day, asked.to.channel, asked.crew, asked.before)
    known = fingerprint_of(session, person.crew_id)
    return sha256(repr((wants, said, known)).encode()).hexdigest()


def work_out_morning(session: Session, asked: MorningAsked) -> ReadyMorning:
    """Work a morning out; nothing is changed."""
    records = CrewRecords(session, asked.person.crew_id)
    channel = asked.to.channel
    morning = morning_of(records, asked.person, asked.day, channel, asked.before)
    message = morning.message
    if asked.crew and message is not None:
        message = buttons_of(asked.crew, message)
    return ReadyMorning(asked.day, made_of(session, asked), message, morning.left_out)


def keep_ready(session: Session, person_id: int, ready: ReadyMorning) -> None:
    """Keep a morning for its hour, in place of any before."""
    message = ready.message or Message(())
    row = {
        "person_id": person_id,
        "day": ready.day,
        "made_of": ready.made_of,
        "parts": list(message.parts),
        "buttons": [[[b.label, b.text] for b in row] for row in message.buttons],
        "places": places_to_json(message.places),
    }
    upsert(session, ReadyMorningRow, row)


def ready_morning(session: Session, person_id: int) -> ReadyMorning | None:
    """Give the morning that was kept for a person."""
    row = session.get(ReadyMorningRow, person_id)
    if row is None:
        return None
    buttons = tuple(tuple(Button(label, text) for label, text in each) for each in row.buttons)
    places = places_from_json(row.places)
    message = Message(tuple(row.parts), buttons, places=places) if row.parts else None
    return ReadyMorning(row.day, row.made_of, message)


def forget_ready(session: Session, person_id: int) -> None:
    """Forget a morning whose hour has come."""
    session.execute(delete(ReadyMorningRow).where(ReadyMorningRow.person_id == person_id))


def make_some_ready(
    engine: Engine,
    now: datetime,
    running: Collection[str] = (),
    sms_budget: SmsBudget | None = None,
) -> int:
    """Make the mornings of the next few people ready who are due within the hour.

    Returns how many people were looked at; 0 when everybody's is ready.

    Args:
        engine: the database.
        now: aware instant.
        running: names of the channels that run, whose addresses go before others.
        sms_budget: how many segments of SMS a month has; None for no end of them.
    """
    with reading(engine) as session:
        if not is_any_to_make_ready(session, now, now + READY_BEFORE):
            return 0
        used_up = sms_budget is not None and sms_budget.is_reached(session, now)
    with writing(engine) as session:
        people = claim_to_make_ready(session, now, now + READY_BEFORE, _AT_ONCE)
    for person in people:
        ready = _made_ready(engine, person, running, used_up=used_up)
        if ready is not None:
            with writing(engine) as session:
                keep_ready(session, person.id, ready)
                tell_left_out(session, person.crew_id, ready.left_out, now, running)
    return len(people)


def _made_ready(
    engine: Engine, person: Person, running: Collection[str], *, used_up: bool
) -> ReadyMorning | None:
    """Work a morning out for its instant; None for one that cannot be, and is seen to when due."""
    try:
        with reading(engine) as session:
            to = next_address(CrewRecords(session, person.crew_id), person.id, running)
            if to is None or person.next_morning_at is None:
                return None
            asked = asked_at(session, person, to, person.next_morning_at, used_up=used_up)
            return work_out_morning(session, asked)
    except Exception as error:
        if is_fault_of_database(error):
            raise
        log.exception("a morning could not be made ready", person=person.id)
        return None
