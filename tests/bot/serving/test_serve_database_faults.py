"""A full disk, a file that cannot be written, a server restarted: a clear line and no loss.

SQLite refuses to make its file larger than ``max_page_count``, with the error of a full disk
(sqlite.org/pragma.html#pragma_max_page_count, from memory).
"""

from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from sqlite3 import connect
from time import sleep

import pytest
from sqlalchemy import Engine, event

from bot.program_log import private_formatter
from deploy.standins.bot_api_standin import BotApiStandin
from deploy.standins.databases import make_tables
from deploy.standins.postgresql import Server
from deploy.standins.waiting import WAIT_AT_MOST_SECONDS
from scheduling.records.engine import open_engine
from tests.bot.serving.served import (
    ADA,
    OnServer,
    Service,
    ask,
    shown,
    wait_for,
    with_crew,
)

LONG_NOTE = "1a note " + "calm bees on five frames " * 156


class FullDisk:
    """A disk on which the database's file cannot grow for a while."""

    def __init__(self, engine: Engine) -> None:
        self.full = False
        event.listen(engine, "checkout", self._limit)

    def _limit(self, connection: object, *_: object) -> None:
        pages = 1 if self.full else 1_000_000
        connection.execute(f"PRAGMA max_page_count = {pages}").close()  # type: ignore[attr-defined]


def without_room_inside(file: Path) -> None:
    """Take away the free pages that the migrations left."""
    with closing(connect(file)) as connection:
        connection.execute("VACUUM")


def until_said(caplog: pytest.LogCaptureFixture, words: str) -> None:
    """Wait until the log, as its owner sees it, says something."""
    lines = private_formatter()
    for _ in range(round(WAIT_AT_MOST_SECONDS / 0.05)):
        if any(words in lines.format(record) for record in list(caplog.records)):
            return
        sleep(0.05)
    raise TimeoutError(f"waited for {words!r}")


def test_a_message_on_a_full_disk_waits_at_the_carrier_until_there_is_room(
    api: BotApiStandin, service: Service, caplog: pytest.LogCaptureFixture
) -> None:
    with_crew(service)
    without_room_inside(service.folder / "yardbell.sqlite")
    engine = service.engine
    disk = FullDisk(engine)
    with service.running(engine):
        ask(api, ADA, "due")
        disk.full = True
        pushed = api.push_text(ADA, LONG_NOTE)
        until_said(caplog, "database or disk is full")
        assert len(shown(api, ADA)) == 1
        assert pushed.update_id in api.unconfirmed
        disk.full = False
        wait_for(api, ADA, 2)
        assert "Noted" in ask(api, ADA, "1b eggs")

    assert len(shown(api, ADA)) == 3
    assert service.kinds(ADA, "1b").count("eggs") == 1


@pytest.fixture
def server() -> Iterator[Server]:
    """A server of the test's own, to be restarted."""
    server = Server()
    yield server
    server.stop()


def test_a_server_restarted_in_the_middle_loses_no_message(
    api: BotApiStandin, tmp_path: Path, server: Server, caplog: pytest.LogCaptureFixture
) -> None:
    url = server.fresh().render_as_string()
    make_tables(url)
    service = OnServer(tmp_path, api.url, database_url=url)
    with_crew(service)
    with service.running():
        ask(api, ADA, "due")
        server.pause()
        api.push_text(ADA, "1a eggs")
        until_said(caplog, "error=OperationalError")
        server.go_on()
        wait_for(api, ADA, 2)
        assert "Noted" in ask(api, ADA, "1b eggs")

    assert [service.kinds(ADA, unit).count("eggs") for unit in ("1a", "1b")] == [1, 1]
    assert sum("Noted: 1a eggs" in text for text in shown(api, ADA)) == 1
    service.engine.dispose()


def test_a_server_that_only_reads_for_a_while_loses_no_message(
    api: BotApiStandin, tmp_path: Path, server: Server, caplog: pytest.LogCaptureFixture
) -> None:
    url = server.fresh()
    make_tables(url.render_as_string())
    service = OnServer(tmp_path, api.url, database_url=url.render_as_string())
    with_crew(service)
    with service.running():
        ask(api, ADA, "due")
        api.wait_until(service.all_marked, "the mark")
        server.forbid_writing(url)
        pushed = api.push_text(ADA, "1a eggs")
        until_said(caplog, "read-only transaction")
        assert pushed.update_id in api.unconfirmed
        server.forbid_writing(url, forbidden=False)
        wait_for(api, ADA, 2)

    assert service.kinds(ADA, "1a").count("eggs") == 1
    assert sum("Noted: 1a eggs" in text for text in shown(api, ADA)) == 1
    service.engine.dispose()


def test_a_file_that_cannot_be_written_is_told_of_and_written_once_it_can(
    api: BotApiStandin, service: Service, caplog: pytest.LogCaptureFixture
) -> None:
    with_crew(service)
    file = service.folder / "yardbell.sqlite"
    engine = open_engine(f"sqlite:///file:{file}?mode=ro&uri=true")
    with service.running(engine):
        pushed = api.push_text(ADA, "1a eggs")
        until_said(caplog, "attempt to write a readonly database")
        assert pushed.update_id in api.unconfirmed
        assert shown(api, ADA) == []
        event.listen(engine, "do_connect", lambda *_: connect(str(file), check_same_thread=False))
        wait_for(api, ADA, 1)

    assert service.kinds(ADA, "1a").count("eggs") == 1
