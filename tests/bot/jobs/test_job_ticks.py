"""The job scheduler ticks at once, once at a time, and ends a tick that is under way."""

import asyncio
import logging
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime, time, timedelta

import pytest
from sqlalchemy import Engine

from bot.channels.channel import OutgoingMessage, Receive, SendOutcome, SendResult
from bot.channels.traits import ChannelTraits
from bot.conversation.message_handler import MessageHandler
from bot.delivery.dispatcher import App, Dispatcher
from bot.jobs import job_scheduler as ticks
from bot.jobs.job_scheduler import JobScheduler
from bot.jobs.ready_mornings import ready_morning
from deploy.standins.waiting import WAIT_AT_MOST_SECONDS
from scheduling.records.engine import reading
from tests.bot.jobs.crews import Member, keeper


@dataclass
class Line:
    """A channel on which every letter arrives, after a while."""

    name: str = "phone"
    traits = ChannelTraits("phone")
    takes: float = 0.0
    begun: list[str] = field(default_factory=list)
    arrived: list[str] = field(default_factory=list)

    async def listen(self, receive: Receive) -> None:
        """Nothing comes in by itself."""

    async def send(self, outgoing: OutgoingMessage) -> SendOutcome:
        self.begun.append(outgoing.text)
        await asyncio.sleep(self.takes)
        self.arrived.append(outgoing.text)
        return SendOutcome(SendResult.SENT)

    async def close(self) -> None:
        """Nothing to let go of."""


def now() -> datetime:
    return datetime.now(UTC)


def due_now(engine: Engine) -> Member:
    """Somebody who gets a word each day at midnight, and has not had today's."""
    ada = keeper(engine, cells=False, next_at=now() - timedelta(minutes=1))
    ada.update({"daily_word": True, "morning": time(0), "cautioned_on": now().date()})
    # These tests go by the real clock, which may stand at night.
    ada.update({"quiet_from": time(), "quiet_until": time()})
    return ada


async def until(true: Callable[[], object]) -> None:
    async with asyncio.timeout(WAIT_AT_MOST_SECONDS):
        while not true():
            await asyncio.sleep(0.005)


def run_ticks(engine: Engine, line: Line, true: Callable[[], object], then: float = 0.0) -> None:
    """Let the job scheduler tick until something holds, and stop it."""

    async def run() -> None:
        app = App(engine, {line.name: line}, clock=now)
        dispatcher = Dispatcher(app, MessageHandler())
        job_scheduler = JobScheduler(app, dispatcher)
        job_scheduler.start()
        await until(true)
        await asyncio.sleep(then)
        await dispatcher.finish()
        await job_scheduler.stop()

    asyncio.run(run())


@pytest.fixture(autouse=True)
def quick_outbox(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(ticks, "OUTBOX_TICK_SECONDS", 0.02)


def test_a_morning_that_is_due_is_sent_at_once(engine: Engine) -> None:
    ada, line = due_now(engine), Line()
    run_ticks(engine, line, lambda: line.arrived)

    assert line.arrived == ["Nothing due today."]
    assert ada.mornings() == line.arrived


def test_a_morning_due_within_the_hour_is_made_ready_and_not_sent(engine: Engine) -> None:
    ada, line = keeper(engine, next_at=now() + timedelta(minutes=30)), Line()

    def ready() -> object:
        with reading(engine) as session:
            return ready_morning(session, ada.person_id)

    run_ticks(engine, line, ready)
    assert (line.begun, ada.mornings()) == ([], [])


def test_a_tick_that_is_still_running_is_not_doubled_and_says_nothing(
    engine: Engine, caplog: pytest.LogCaptureFixture
) -> None:
    due_now(engine)
    line = Line(takes=0.15)
    with caplog.at_level(logging.WARNING):
        run_ticks(engine, line, lambda: line.arrived)

    assert len(line.begun) == 1
    assert caplog.records == []


def test_a_bell_stopped_in_the_middle_ends_the_send_in_hand(
    engine: Engine, caplog: pytest.LogCaptureFixture
) -> None:
    due_now(engine)
    line = Line(takes=0.1)
    with caplog.at_level(logging.WARNING):
        run_ticks(engine, line, lambda: line.begun)

    assert line.arrived == line.begun
    assert caplog.records == []


def test_a_tick_that_fails_is_logged_and_the_next_one_works(
    engine: Engine, caplog: pytest.LogCaptureFixture, monkeypatch: pytest.MonkeyPatch
) -> None:
    failures = iter([OSError("the disk is full")])
    deliver = Dispatcher.deliver

    async def failing(dispatcher: Dispatcher) -> None:
        for failure in failures:
            raise failure
        await deliver(dispatcher)

    monkeypatch.setattr(Dispatcher, "deliver", failing)
    due_now(engine)
    line = Line()
    run_ticks(engine, line, lambda: line.arrived)

    assert len(line.arrived) == 1
    assert "a tick failed" in caplog.text
