"""Mornings made ready in the hour before they are due, so that nobody waits for others' calendars.

Whatever is noted afterwards is seen when the morning is due: it is then worked out anew.
"""

from collections.abc import Collection
from datetime import datetime, timedelta

from sqlalchemy import Engine

from bot.delivery.recipients import next_address
from bot.delivery.sms_budget import SmsBudget
from bot.jobs.ready_mornings import ReadyMorning, asked_at, keep_ready, work_out_morning
from bot.program_log import log_of
from scheduling.records.addresses import claim_to_make_ready, is_any_to_make_ready
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import is_fault_of_database, reading, writing
from scheduling.records.people import Person

log = log_of(__name__)

READY_BEFORE = timedelta(hours=1)
"""How long before its instant a morning may be made ready."""

_AT_ONCE = 10
"""People whose mornings are made ready in a row."""


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
