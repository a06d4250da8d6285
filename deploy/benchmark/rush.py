"""Everybody's morning at the same minute, sent within a carrier's limits."""

import asyncio
import time
from collections import Counter, deque
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field
from datetime import UTC, datetime
from multiprocessing import get_context
from pathlib import Path
from tempfile import TemporaryDirectory

from sqlalchemy import Engine

from bot.channels.telegram.channel import TelegramChannel
from bot.channels.traits import TELEGRAM
from bot.delivery.rules import Purpose
from bot.delivery.sender import deliver_all
from bot.gc_tuning import collect_rarely
from deploy.proof.rush import plan_many
from deploy.standins.bot_api_faults import Fault, flood
from deploy.standins.bot_api_standin import TOKEN, BotApiStandin, running_standin
from deploy.standins.databases import make_tables
from scheduling.records.engine import open_engine

A_SECOND = 30
"""Messages a second that the carrier takes in all; one a second to the same chat."""

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
        make_tables(database)
        mornings = [(str(number), TEXT) for number in range(1, people + 1)]
        plan_many(database, TELEGRAM.name, mornings, Purpose.MORNING, datetime.now(UTC))
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


def rush(people: int) -> None:
    """Measure and print."""
    limited = within_limits(people)
    print(f"{people:,} mornings at once within the carrier's limits, {A_SECOND} a second\n")
    print(f"{limited.seconds:.0f} s, {limited.share:.1%} of its rate", end=", ")
    print(f"{limited.refused} refused with 429, {limited.twice} sent twice")
