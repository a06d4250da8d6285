"""Telegram takes nothing for an hour: its owner gets a real e-mail, once, as any message."""

import asyncio
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy import Engine

from bot.channels.channel import OutgoingMessage
from bot.channels.mail.channel import MailChannel
from bot.channels.mail.mail_message import MailAccount, Security
from bot.delivery import outbox
from bot.delivery.outbox import Recipient
from bot.delivery.rules import Purpose
from bot.delivery.sender import deliver_all
from bot.jobs.job_scheduler import monitor_once
from deploy.standins.bot_api_faults import gateway_page
from deploy.standins.bot_api_standin import BotApiStandin, running_standin
from deploy.standins.mail_server import MailServer, running_mail_server
from scheduling.records.crew_records import CrewRecords, found_crew
from scheduling.records.engine import writing
from tests.bot.channels.telegram_listening import quick_channel

MORNING = datetime(2027, 5, 12, 11, 30, tzinfo=UTC)
OWNER = "ada@yards.example"
KEY = "an invented key of many letters"
CHANNELS = ("telegram", "mail")


@pytest.fixture
def api() -> Iterator[BotApiStandin]:
    with running_standin() as api:
        yield api


@pytest.fixture
def server() -> Iterator[MailServer]:
    with running_mail_server() as server:
        yield server


@pytest.fixture
def waits(engine: Engine) -> None:
    """Ada, on Telegram and by e-mail, has a morning to get."""
    with writing(engine) as session:
        crew, owner = found_crew(session, "Ada's crew", "Ada", "America/Chicago", MORNING)
        records = CrewRecords(session, crew.id)
        records.add_address(owner.id, "telegram", "11")
        records.add_address(owner.id, "mail", OWNER)
        to = Recipient("telegram", "11", owner.id)
        outgoing = OutgoingMessage("11", "Look for eggs 1")
        outbox.plan(session, "morning", Purpose.MORNING, to, outgoing, MORNING)


@pytest.mark.usefixtures("waits")
def test_the_owner_hears_of_an_hour_without_telegram_by_e_mail(
    engine: Engine, api: BotApiStandin, server: MailServer
) -> None:
    api.next_send(*[gateway_page()] * 9)

    ours = MailAccount("127.0.0.1", server.port, "bees@club.example", KEY, security=Security.NONE)

    async def a_quarter_of_an_hour(now: datetime) -> None:
        telegram, mail = quick_channel(api.url), MailChannel(ours, clock=lambda: now)
        monitor_once(engine, now, CHANNELS)
        await deliver_all(engine, {"telegram": telegram, "mail": mail}, lambda: now)
        await telegram.close()

    for quarter in range(9):
        asyncio.run(a_quarter_of_an_hour(MORNING + timedelta(minutes=15 * quarter)))
        assert len(server.mails) == (quarter >= 4), "after an hour, and once"

    assert server.recipients == [OWNER]
    assert "Telegram" in server.mails[0].get_content()
    assert api.sent == []
