"""The program beside the Bot API stand-in: in this process, or as ``yardbell serve``."""

import asyncio
import os
import re
import subprocess
import sys
from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime, time, timedelta
from pathlib import Path
from time import sleep

from pydantic import SecretStr
from sqlalchemy import Engine, select

from bot.channel_factory import channels_of
from bot.delivery.dispatcher import App
from bot.delivery.message_tables import OutboxRow
from bot.delivery.rules import OutboxState
from bot.serving import serve
from bot.settings.founding import Founding
from bot.settings.settings import Settings, TelegramSettings
from bot.wording.cautions import cautions
from deploy.standins.bot_api_standin import TOKEN, BotApiStandin
from deploy.standins.program_beside import NO_FILE, start_beside
from deploy.standins.waiting import WAIT_AT_MOST_SECONDS
from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName
from scheduling.records.addresses import address_rows, find_person
from scheduling.records.backup_file import back_up
from scheduling.records.crew_records import CrewRecords, found_crew
from scheduling.records.engine import open_engine, reading, writing
from scheduling.records.people import Person
from scheduling.records.tables import PersonRow
from scheduling.values import CellAge
from tests.bot.serving.programs import PROGRAM, QUICK, quick_telegram

REPOSITORY = Path(__file__).parents[3]
ADA, MILO = 11, 12
"""Invented chats."""


@dataclass
class Service:
    """The program on one database; it may be started, stopped and killed many times.

    Attributes:
        folder: where the database and the log lie.
        url: the address of the Bot API.
        token: the bot's token.
        environment: further settings, by their full names.
        program: what a process runs.
    """

    folder: Path
    url: str
    token: str = TOKEN
    environment: dict[str, str] = field(default_factory=dict)
    program: str = QUICK

    @property
    def database(self) -> str:
        return f"sqlite:///{self.folder / 'yardbell.sqlite'}"

    @property
    def log(self) -> str:
        """All that the program wrote, from every start."""
        return (self.folder / "log").read_text(encoding="utf-8")

    @property
    def engine(self) -> Engine:
        return open_engine(self.database)

    def secrets_written(self) -> list[str]:
        """Name the settings whose secrets stand in the log, the database or a backup of it."""
        back_up(self.engine, self.folder / "backup")
        files = [file for file in self.folder.iterdir() if file.is_file()]
        assert {"log", "yardbell.sqlite", "backup"} <= {file.name for file in files}
        written = b"".join(file.read_bytes() for file in files)
        secrets = {"YARDBELL_TELEGRAM_TOKEN": self.token} | {
            name: value
            for name, value in self.environment.items()
            if name.endswith(("_TOKEN", "_PASSWORD", "_KEY"))
        }
        return [name for name, secret in secrets.items() if secret.encode() in written]

    def command(self, *words: str) -> str:
        """Run ``yardbell WORDS`` on the same database, and give what it printed."""
        words = ("--database", self.database, *words)
        done = subprocess.run(
            [sys.executable, "-c", PROGRAM, *words],
            cwd=self.folder,
            env=_plain_environment(),
            capture_output=True,
            text=True,
            check=False,
        )
        assert (done.returncode, done.stderr) == (0, ""), done
        return done.stdout

    def start(self) -> "subprocess.Popen[bytes]":
        """Start the program."""
        settings = {
            "YARDBELL_DATABASE": self.database,
            "YARDBELL_TELEGRAM_TOKEN": self.token,
            "YARDBELL_TELEGRAM_URL": self.url,
            "YARDBELL_CREWS_FOUNDED_BY": "anybody",
            "YARDBELL_LOG_LEVEL": "DEBUG",
            "TZ": "UTC",
        }
        words, log = ["-c", self.program, "serve"], self.folder / "log"
        return start_beside(words, {**settings, **self.environment}, self.folder, log)

    @contextmanager
    def running(self, engine: Engine | None = None) -> Iterator[None]:
        """Run the program in this process, in a thread of its own, and stop it at the end."""
        loop, stop = asyncio.new_event_loop(), asyncio.Event()
        engine = engine or self.engine
        settings = Settings(telegram=TelegramSettings(token=SecretStr(self.token), url=self.url))
        with ThreadPoolExecutor(1) as threads, quick_telegram():
            done = threads.submit(
                loop.run_until_complete,
                serve(
                    App(engine, channels_of(settings, lambda: engine), founding=Founding.ANYBODY),
                    stop,
                ),
            )
            try:
                yield
            finally:
                loop.call_soon_threadsafe(stop.set)
                done.result(WAIT_AT_MOST_SECONDS)
                loop.run_until_complete(loop.shutdown_default_executor())
                loop.close()
                engine.dispose()

    @contextmanager
    def process(self) -> Iterator["subprocess.Popen[bytes]"]:
        """Run the program as a process; it is told to stop at the end, if it still runs."""
        process = self.start()
        try:
            yield process
        finally:
            if process.poll() is None:
                process.terminate()
            try:
                process.wait(WAIT_AT_MOST_SECONDS)
            except subprocess.TimeoutExpired:
                process.kill()
                process.wait()
                raise

    def person(self, chat: int) -> Person | None:
        """Who is in a chat."""
        with reading(self.engine) as session:
            return find_person(session, "telegram", str(chat))

    def entries(self, chat: int) -> list[Entry]:
        """The log of that person's crew."""
        person = self.person(chat)
        assert person is not None
        with reading(self.engine) as session:
            return list(CrewRecords(session, person.crew_id).entries())

    def kinds(self, chat: int, unit: str) -> list[str]:
        """What the crew's log says of one unit, in order."""
        said = [entry for entry in self.entries(chat) if str(entry.place.unit) == unit]
        return [str(entry.kind) for entry in said]

    def all_marked(self) -> bool:
        """Whether how each message ended is known; one that is not is sent again after a kill."""
        claimed = select(OutboxRow.id).where(OutboxRow.state == OutboxState.CLAIMED)
        with reading(self.engine) as session:
            return session.scalar(claimed) is None

    def unreachable(self, chat: int) -> bool:
        """Whether the chat is marked as one that takes no more messages."""
        with reading(self.engine) as session:
            (row,) = address_rows(session, "telegram", str(chat))
            return row.unreachable_since is not None

    def make_morning_due(self, address: int | str, channel: str = "telegram") -> None:
        """Set the person's morning to local midnight, with today's still to come."""
        with writing(self.engine) as session:
            person = find_person(session, channel, str(address))
            assert person is not None
            row = session.scalars(select(PersonRow).where(PersonRow.id == person.id)).one()
            row.morning, row.next_morning_at = time(0), datetime.now(UTC) - timedelta(minutes=1)
            # The test runs at whatever hour it is.
            row.quiet_from = row.quiet_until = time(0)


class OnServer(Service):
    """The program on a database that is named."""

    def __init__(self, folder: Path, url: str, database_url: str) -> None:
        super().__init__(folder, url)
        self._database_url = database_url
        self._engine = open_engine(database_url)

    @property
    def engine(self) -> Engine:
        return self._engine

    @property
    def database(self) -> str:
        return self._database_url


def _plain_environment() -> dict[str, str]:
    """This environment without a developer's own settings, with this checkout's code."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith("YARDBELL_")}
    return {**kept, "PYTHONPATH": str(REPOSITORY), "PYTHONUNBUFFERED": "1", **NO_FILE}


def with_crew(
    service: Service,
    chat: int = ADA,
    name: str = "Ada",
    yards: Sequence[str] = ("River",),
    zone: str = "UTC",
) -> None:
    """A crew with cells in two boxes of each yard, placed two weeks ago; nobody needs a caution."""
    now = datetime.now(UTC)
    with writing(service.engine) as session:
        crew, person = found_crew(session, f"{name}'s crew", name, zone, now)
        records = CrewRecords(session, crew.id)
        records.add_address(person.id, "telegram", str(chat))
        for yard in yards:
            _fill_yard(records, yard, name, now, zone)
        records.update_person(
            person.id,
            cautioned_on=now.date(),
            next_morning_at=now + timedelta(days=1),
            quiet_from=time(0),
            quiet_until=time(0),
        )


def _fill_yard(records: CrewRecords, yard: str, name: str, now: datetime, zone: str) -> None:
    units = [UnitName(box, letter) for box in (1, 2) for letter in "abc"]
    records.add_yard(yard, zone)
    records.add_units(yard, units)
    records.append(_cell(name, Place(yard, unit), now - timedelta(days=14)) for unit in units)


def _cell(name: str, place: Place, at: datetime) -> Entry:
    return Entry(
        uid=f"{name}: {place}",
        place=place,
        kind=EntryKind.CELL_PLACED,
        value=CellAge.parse("10"),
        on=at.date(),
        recorded_at=at,
        person=name,
        channel="telegram",
    )


def ask(api: BotApiStandin, chat: int, text: str, sender: str = "Ada") -> str:
    """Write a text, and give the first answer that comes to this chat."""
    before = len(shown(api, chat))
    api.push_text(chat, text, sender)
    return wait_for(api, chat, before + 1)[before]


def shown(api: BotApiStandin, chat: int) -> list[str]:
    """What a phone shows of the bot's messages, in order, the yearly caution left out."""
    return [sent.text for sent in api.sent if sent.chat == chat and sent.text != cautions()]


def wait_for(api: BotApiStandin, chat: int, count: int) -> list[str]:
    """Wait until a phone shows so many messages."""
    api.wait_until(lambda: len(shown(api, chat)) >= count, f"{count} messages to {chat}")
    return shown(api, chat)


def invite_link_in(text: str) -> str:
    """The code in the link of an invitation."""
    found = re.search(r"https://t\.me/\w+\?start=(\w+)", text)
    assert found is not None, text
    return found[1]


def wait_for_log(service: Service, words: str) -> None:
    """Wait until the program has said something in its log."""
    for _ in range(round(WAIT_AT_MOST_SECONDS / 0.05)):
        if words in service.log:
            return
        sleep(0.05)
    raise TimeoutError(f"waited for {words!r} in: {service.log}")
