"""Everybody's morning at the same minute: with a carrier's limits, and as fast as we can."""

import asyncio
import time
from collections import Counter, deque
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime
from multiprocessing import get_context
from pathlib import Path
from tempfile import TemporaryDirectory

from sqlalchemy import Engine, insert, select

from bot.channels.channel import OutgoingMessage
from bot.channels.telegram.channel import TelegramChannel
from bot.delivery.message_tables import OutboxRow
from bot.delivery.outbox import Recipient, plan
from bot.delivery.rules import Purpose
from bot.delivery.sender import deliver_all
from bot.gc_tuning import collect_rarely
from deploy.proof.rush import Notebook
from deploy.standins.bot_api_faults import Fault, flood
from deploy.standins.bot_api_standin import TOKEN, BotApiStandin, running_standin
from deploy.standins.databases import make_tables
from deploy.standins.postgresql import Server
from scheduling.records.engine import open_engine, writing

A_SECOND = 30
"""Messages a second that the carrier takes in all; one a second to the same chat."""

WORKERS = (1, 2, 4)
TEXT = "Wed 12 May, River: look for eggs 4a-c"


@dataclass
class CountingCarrier(BotApiStandin):
    """A stand-in that refuses with 429 what comes over the limits in any second.

    Attributes:
        refused: how many messages it refused.
        began: when each message came in, by a steady clock in seconds.
    """

    refused: int = 0
    began: list[float] = field(default_factory=list)
    _lately: deque[float] = field(default_factory=deque)

    def next_fault(self, method: str) -> Fault:
        """Refuse what is too much."""
        if method != "sendMessage":
            return super().next_fault(method)
        now = time.perf_counter()
        self.began.append(now)
        while self._lately and self._lately[0] <= now - 1:
            self._lately.popleft()
        if len(self._lately) >= A_SECOND:
            self.refused += 1
            return flood(1)
        self._lately.append(now)
        return Fault()


@dataclass(frozen=True)
class Rushed:
    """What a rush within a carrier's limits came to."""

    people: int
    seconds: float
    refused: int
    twice: int

    @property
    def share(self) -> float:
        """What part of the carrier's rate was used, from 0 to 1."""
        return self.people / self.seconds / A_SECOND


def within_limits(people: int) -> Rushed:
    """Send everybody's morning over HTTP at the pace of the real carrier, by one worker.

    It is a process of its own: the stand-in's work must not hold up its sends, nor theirs be
    counted late.
    """
    with (
        TemporaryDirectory() as folder,
        running_standin(again=CountingCarrier()) as api,
        ProcessPoolExecutor(1, get_context("spawn")) as worker,
    ):
        database = f"sqlite:///{Path(folder) / 'bees.sqlite'}"
        _filled(database, "telegram", people).dispose()
        worker.submit(_send_all, database, api.url).result()
        assert isinstance(api, CountingCarrier)  # noqa: S101 - as it was given
        chats = Counter(sent.chat for sent in api.sent)
        if len(chats) != people:
            raise ValueError(f"{people - len(chats)} got nothing")
        seconds = (api.began[-1] - api.began[0]) * people / max(1, people - 1)
        return Rushed(people, seconds, api.refused, len(api.sent) - people)


def _send_all(database: str, url: str) -> None:
    collect_rarely()
    engine = open_engine(database)
    asyncio.run(_deliver(engine, url))
    engine.dispose()


async def _deliver(engine: Engine, url: str) -> None:
    channel = TelegramChannel(TOKEN, url)
    await channel.connect()
    await deliver_all(engine, {channel.traits.name: channel}, lambda: datetime.now(UTC))
    await channel.close()


def without_limits(url: str, messages: int, workers: int) -> float:
    """Send messages by so many processes to a channel that takes all; gives messages a second."""
    _filled(url, "phone", messages).dispose()
    with TemporaryDirectory() as folder, ProcessPoolExecutor(workers, get_context("spawn")) as pool:
        list(pool.map(_ready, range(workers)))
        files = [Path(folder) / "sent"] * workers
        spans = list(pool.map(_work, [url] * workers, files))
        sent = len((Path(folder) / "sent").read_text().splitlines())
    if sent != messages:
        raise ValueError(f"{sent} sent of {messages}")
    return messages / (max(end for _, end in spans) - min(begin for begin, _ in spans))


def _ready(number: int) -> int:
    """Let a process come up before it is measured."""
    time.sleep(0.5)
    return number


def _work(url: str, file: Path) -> tuple[float, float]:
    engine, notebook = open_engine(url), Notebook(file)
    began = time.monotonic()
    asyncio.run(deliver_all(engine, {notebook.name: notebook}, lambda: datetime.now(UTC)))
    ended = time.monotonic()
    engine.dispose()
    return began, ended


def _filled(url: str, channel: str, people: int) -> Engine:
    """Make a database in which everybody's morning is planned."""
    make_tables(url)
    engine, now = open_engine(url), datetime.now(UTC)
    with writing(engine) as session:
        to = Recipient(channel, "1")
        plan(session, "morning:1", Purpose.MORNING, to, OutgoingMessage("1", TEXT), now)
        row = session.scalars(select(OutboxRow)).one()
        names = set(OutboxRow.__table__.c.keys()) - {"id"}
        same = {name: getattr(row, name) for name in names}
        others = [{**same, "key": f"morning:{n}", "address": str(n)} for n in range(2, people + 1)]
        if others:
            session.execute(insert(OutboxRow), others)
    return engine


@contextmanager
def _databases() -> Iterator[dict[str, Iterator[str]]]:
    """Give addresses of new databases of both kinds, as many as are asked for."""
    server = Server()
    with TemporaryDirectory() as folder:
        files = (f"sqlite:///{Path(folder) / str(n)}" for n in range(1000))
        served = (server.fresh().render_as_string() for _ in range(1000))
        try:
            yield {"SQLite": files, "PostgreSQL": served}
        finally:
            server.stop()


def rush(people: int, messages: int) -> None:
    """Measure and print."""
    limited = within_limits(people)
    print(f"{people:,} mornings at once within the carrier's limits, {A_SECOND} a second\n")
    print(f"{limited.seconds:.0f} s, {limited.share:.1%} of its rate", end=", ")
    print(f"{limited.refused} refused with 429, {limited.twice} sent twice\n")
    print(f"{messages:,} messages without limits, messages a second by workers\n")
    print(f"{'':<11}" + "".join(f"{workers:>8}" for workers in WORKERS))
    with _databases() as kinds:
        for name, urls in kinds.items():
            rates = [without_limits(next(urls), messages, workers) for workers in WORKERS]
            print(f"{name:<11}" + "".join(f"{rate:>8.0f}" for rate in rates), flush=True)
