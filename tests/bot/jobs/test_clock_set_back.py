"""A clock set back an hour, or by years, keeps no message, morning or weather waiting for it."""

import asyncio
from datetime import datetime, timedelta
from time import monotonic

import pytest
from sqlalchemy import Engine, update

from bot.channels.channel import IncomingMessage, SendResult
from bot.channels.traits import RateLimit
from bot.conversation.message_handler import MessageHandler
from bot.delivery import inbox
from bot.delivery.claims import claim
from bot.delivery.intake import Intake
from bot.delivery.message_tables import InboxRow
from bot.delivery.rules import LEASE, Purpose
from bot.delivery.sender import deliver_all
from bot.jobs.clock_set_back import due_again
from bot.jobs.mornings import queue_mornings
from bot.monitoring import beats_in, write_beats
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import reading, writing
from scheduling.records.tables import PersonRow
from scheduling.records.weather_asked import claim_yards
from tests.bot.delivery.counter import Counter, after
from tests.bot.delivery.test_sender import Line
from tests.bot.jobs.crews import DAY, instant, keeper

HOUR = 3600.0
RATE_LIMITS = {"phone": RateLimit(timedelta(seconds=0.1), timedelta(seconds=1), "invented")}


@pytest.fixture
def counter(engine: Engine) -> Counter:
    return Counter(engine)


def claimed(counter: Counter, at: float) -> list[str]:
    with writing(counter.engine) as session:
        found = claim(session, ["phone"], after(at), rate_limits=RATE_LIMITS)
    return [each.outgoing.text for each in found]


def test_what_was_planned_before_is_sent_at_once_and_holds_up_nothing(counter: Counter) -> None:
    counter.plan("early", at=HOUR)
    counter.plan("late", at=5)
    assert claimed(counter, 5) == []

    assert due_again(counter.engine, after(5)) == 1
    assert claimed(counter, 5) == ["early"]


def test_a_second_try_that_would_come_an_hour_late_comes_now(counter: Counter) -> None:
    counter.plan("morning", purpose=Purpose.MORNING)
    counter.send(SendResult.LATER, HOUR)
    assert due_again(counter.engine, after(HOUR)) == 0

    due_again(counter.engine, after(5))
    assert claimed(counter, 5) == ["morning"]


def test_a_rate_limit_noted_before_holds_nobody(counter: Counter) -> None:
    counter.plan("one", at=HOUR)
    assert claimed(counter, HOUR) == ["one"]
    counter.plan("another", to="12", at=5)
    assert claimed(counter, 5) == []

    due_again(counter.engine, after(5))
    assert claimed(counter, 5) == ["another"]


def test_a_wait_that_the_carrier_asked_for_is_kept(counter: Counter) -> None:
    counter.plan("morning")
    counter.send(SendResult.LATER, 0, wait=HOUR)

    assert due_again(counter.engine, after(60)) == 0
    assert counter.claim(HOUR - 1) == []
    assert counter.claimed_texts(HOUR) == ["morning"]


def test_a_lease_ends_no_later_than_one_that_begins_now(counter: Counter) -> None:
    counter.plan("lost", at=HOUR)
    counter.claim(HOUR)
    due_again(counter.engine, after(5))

    assert counter.claim(5) == []
    assert counter.claimed_texts(5 + LEASE.total_seconds()) == ["lost"]


def test_a_send_does_not_wait_for_an_hour_when_the_clock_goes_back_before_its_turn(
    counter: Counter,
) -> None:
    counter.plan("a")
    times = iter([after(0)])
    began = monotonic()
    line = Line()
    asyncio.run(deliver_all(counter.engine, {"phone": line}, lambda: next(times, after(-HOUR))))

    assert line.taken == ["a"]
    assert monotonic() - began < 10


def test_a_message_in_that_waits_is_worked_through_by_the_clock_of_now(engine: Engine) -> None:
    with writing(engine) as session:
        message = IncomingMessage("phone", "11", "11:1", "begin", after(0), "Ada")
        stored = inbox.accept(session, message, after(HOUR))
    due_again(engine, after(5))
    Intake(engine, MessageHandler()).catch_up(after(70), timedelta(minutes=1))

    with reading(engine) as session:
        assert session.get_one(InboxRow, stored).state == "done"


def test_after_years_ahead_mornings_and_weather_and_signs_of_life_go_on(engine: Engine) -> None:
    ada, now = keeper(engine), instant(DAY, 5)
    years = now + timedelta(days=1500)
    with writing(engine) as session:
        records = CrewRecords(session, ada.crew_id)
        records.set_location("River", 41.3, -92.6)
        claim_yards(session, years, years, 5)
        write_beats(session, {"tick:outbox": years, "poll:phone": now})
        session.execute(update(PersonRow).values(next_morning_at=years))

    assert due_again(engine, now) == 3
    assert due_again(engine, now) == 0
    queue_mornings(engine, instant(DAY, 6, 30))
    assert len(ada.mornings()) == 1
    with writing(engine) as session:
        assert len(claim_yards(session, now, now, 5)) == 1
        assert list(beats_in(session)) == ["poll:phone"]


@pytest.mark.parametrize("skew", [timedelta(seconds=30), timedelta(0)])
def test_another_workers_clock_that_is_a_little_ahead_is_no_clock_set_back(
    engine: Engine, counter: Counter, skew: timedelta
) -> None:
    ahead: datetime = after(0) + skew
    counter.plan("a", at=skew.total_seconds())
    with writing(engine) as session:
        claim(session, ["phone"], ahead, rate_limits=RATE_LIMITS)
        write_beats(session, {"tick:outbox": ahead})

    assert due_again(engine, after(0)) == 0
