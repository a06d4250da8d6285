"""A backup by the command while the program serves, and the program going on from it elsewhere."""

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from time import sleep

import pytest
from sqlalchemy import func, select

from bot.delivery.message_tables import InboxRow, OutboxRow
from deploy.standins.bot_api_standin import BotApiStandin
from scheduling.entry_kinds import EntryKind
from scheduling.records.engine import reading
from scheduling.records.tables import EntryRow
from tests.bot.serving.served import ADA, OnServer, ask, wait_for, with_crew

CREWS = range(ADA, ADA + 12)
"""Invented chats, each the owner of a crew."""


def counted(service: OnServer) -> tuple[int, int, int]:
    """How many messages came in, entries came of them, and answers were queued."""
    feeds = select(func.count()).where(EntryRow.kind == EntryKind.FED)
    answers = select(func.count()).where(OutboxRow.key.like("answer:%"))
    with reading(service.engine) as session:
        found = [select(func.count(InboxRow.id)), feeds, answers]
        came, told, answered = (session.scalar(each) or 0 for each in found)
    return came, told, answered


@pytest.fixture
def service(api: BotApiStandin, database: str, tmp_path: Path) -> Iterator[OnServer]:
    service = OnServer(tmp_path, api.url, database_url=database)
    for chat in CREWS:
        with_crew(service, chat, f"Keeper {chat}")
    yield service
    service.engine.dispose()


@pytest.fixture
def elsewhere(api: BotApiStandin, blank: str, tmp_path: Path) -> Iterator[OnServer]:
    elsewhere = OnServer(tmp_path, api.url, database_url=blank)
    yield elsewhere
    elsewhere.engine.dispose()


def test_a_backup_taken_beside_the_running_program_goes_on_elsewhere(
    api: BotApiStandin, service: OnServer, elsewhere: OnServer
) -> None:
    with service.process(), ThreadPoolExecutor(1) as beside:
        ask(api, ADA, "1a fed 1 quart")
        backup = beside.submit(service.command, "backup", "bees.backup")
        for chat in CREWS[1:]:
            api.push_text(chat, "1a fed 1 quart")
            sleep(0.05)
        assert "backup written" in backup.result()
        for chat in CREWS[1:]:
            wait_for(api, chat, 1)
    assert counted(service) == (len(CREWS), len(CREWS), len(CREWS))

    assert f"{len(CREWS)} crews, {len(CREWS)} people" in elsewhere.command("restore", "bees.backup")
    came, told, answered = counted(elsewhere)
    assert 1 <= came == told == answered <= len(CREWS)
    assert elsewhere.command("check") == "all is well\n"
    with elsewhere.process():
        assert "Noted: 1c eggs" in ask(api, ADA, "1c eggs")
    assert elsewhere.kinds(ADA, "1c")[-1] == "eggs"
