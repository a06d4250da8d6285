"""The stand-in and the program beside it, on a fresh database."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from deploy.standins.bot_api_standin import BotApiStandin, running_standin
from deploy.standins.databases import copied_file
from tests.bot.serving.served import Service


@pytest.fixture
def api() -> Iterator[BotApiStandin]:
    with running_standin() as api:
        yield api


@pytest.fixture
def service(api: BotApiStandin, made_once: Path, tmp_path: Path) -> Service:
    """The program, not started; its tables are made."""
    service = Service(tmp_path, api.url)
    assert copied_file(made_once, tmp_path) == service.database
    return service
