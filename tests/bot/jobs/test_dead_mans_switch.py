"""Somebody else's service hears that all is well, and nothing when it is not."""

import asyncio
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta

import pytest
from aiohttp import web
from sqlalchemy import Engine

from bot.channels.channel import OutgoingMessage, Receive, SendOutcome, SendResult
from bot.channels.outcome import failed
from bot.channels.send_error import SendError
from bot.channels.traits import MAIL
from bot.conversation.message_handler import MessageHandler
from bot.delivery import outbox
from bot.delivery.dispatcher import App, Dispatcher
from bot.delivery.outbox import Recipient
from bot.delivery.rules import Purpose
from bot.jobs.dead_mans_switch import DeadMansSwitch
from bot.jobs.job_scheduler import JobScheduler
from bot.monitoring import beat, tick_name, write_beats
from deploy.standins.free_port import free_port
from deploy.standins.local_http import serving
from scheduling.records.engine import writing

NOW = datetime(2027, 5, 12, 6, 30, tzinfo=UTC)
FIVE_MINUTES = timedelta(minutes=5)


@dataclass
class Keeper:
    """The service that misses us; it answers with a status."""

    url: str = ""
    status: int = 200
    heard: list[str] = field(default_factory=list)

    async def hear(self, request: web.Request) -> web.Response:
        self.heard.append(request.path)
        return web.Response(status=self.status)


@contextmanager
def a_keeper() -> Iterator[Keeper]:
    keeper, app = Keeper(), web.Application()
    app.router.add_get("/yard", keeper.hear)
    with serving(app) as address:
        keeper.url = f"{address}/yard"
        yield keeper


@pytest.fixture
def keeper() -> Iterator[Keeper]:
    with a_keeper() as keeper:
        yield keeper


@dataclass
class Mail:
    """E-mail whose sends end as told."""

    traits = MAIL
    outcome: SendOutcome = field(default_factory=lambda: SendOutcome(SendResult.SENT))
    sent: list[OutgoingMessage] = field(default_factory=list)

    async def listen(self, receive: Receive) -> None:
        """Nothing comes in."""

    async def send(self, outgoing: OutgoingMessage) -> SendOutcome:
        self.sent.append(outgoing)
        return self.outcome

    async def close(self) -> None:
        """Nothing to let go of."""


def tick(engine: Engine, switch: DeadMansSwitch, at: datetime) -> None:
    """Let the tick come once."""
    app = App(engine, {}, clock=lambda: at)
    scheduler = JobScheduler(app, Dispatcher(app, MessageHandler()), switch)
    asyncio.run(scheduler.tell_alive())


def test_it_hears_every_five_minutes_that_all_is_well(engine: Engine, keeper: Keeper) -> None:
    switch = DeadMansSwitch(FIVE_MINUTES, keeper.url)
    for minutes in range(11):
        at = NOW + timedelta(minutes=minutes)
        beat(tick_name("watch"), at)
        tick(engine, switch, at)

    assert keeper.heard == ["/yard"] * 3


def test_it_hears_nothing_of_a_program_that_no_longer_ticks(engine: Engine, keeper: Keeper) -> None:
    beat(tick_name("watch"), NOW - timedelta(minutes=2))
    tick(engine, DeadMansSwitch(FIVE_MINUTES, keeper.url), NOW)

    assert keeper.heard == []


def test_it_hears_nothing_while_a_channel_takes_nothing(engine: Engine, keeper: Keeper) -> None:
    beat(tick_name("watch"), NOW)
    with writing(engine) as session:
        write_beats(session, {"running:telegram": NOW})
        to, outgoing = Recipient("telegram", "11"), OutgoingMessage("11", "Look for eggs 1")
        outbox.plan(session, "a", Purpose.ANSWER, to, outgoing, NOW - timedelta(hours=2))
    tick(engine, DeadMansSwitch(FIVE_MINUTES, keeper.url), NOW)

    assert keeper.heard == []


@pytest.mark.parametrize("status", [404, 500])
def test_one_that_did_not_hear_is_told_again_at_the_next_tick(
    engine: Engine, keeper: Keeper, status: int, caplog: pytest.LogCaptureFixture
) -> None:
    beat(tick_name("watch"), NOW)
    switch, keeper.status = DeadMansSwitch(FIVE_MINUTES, keeper.url), status
    tick(engine, switch, NOW)
    keeper.status = 200
    tick(engine, switch, NOW + timedelta(minutes=1))

    assert keeper.heard == ["/yard"] * 2
    assert "the dead man's switch could not be told" in caplog.text
    assert keeper.url not in caplog.text


def test_a_keeper_that_is_not_there_stops_nothing(engine: Engine) -> None:
    beat(tick_name("watch"), NOW)
    switch = DeadMansSwitch(FIVE_MINUTES, f"http://127.0.0.1:{free_port()}/")
    tick(engine, switch, NOW)

    assert switch.is_due(NOW)


def test_it_may_be_told_by_mail_each_one_of_its_own(engine: Engine) -> None:
    beat(tick_name("watch"), NOW)
    mail = Mail()
    switch = DeadMansSwitch(FIVE_MINUTES, mail=mail, mail_to="well@keeper.example")
    for _ in range(2):
        tick(engine, switch, NOW)
        switch = DeadMansSwitch(FIVE_MINUTES, mail=mail, mail_to="well@keeper.example")

    assert [sent.address for sent in mail.sent] == ["well@keeper.example"] * 2
    assert len({sent.key for sent in mail.sent}) == 2
    assert "Yardbell is well" in mail.sent[0].text


def test_a_mail_that_did_not_go_is_tried_again(engine: Engine) -> None:
    beat(tick_name("watch"), NOW)
    mail = Mail(outcome=failed(SendError.NO_CONNECTION))
    switch = DeadMansSwitch(FIVE_MINUTES, mail=mail, mail_to="well@keeper.example")
    tick(engine, switch, NOW)

    assert switch.is_due(NOW)


def test_after_the_clock_was_set_back_it_is_told_at_once(engine: Engine, keeper: Keeper) -> None:
    beat(tick_name("watch"), NOW)
    switch = DeadMansSwitch(FIVE_MINUTES, keeper.url)
    tick(engine, switch, NOW)

    assert switch.is_due(NOW - timedelta(days=1))
