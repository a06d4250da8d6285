"""A long lock on the database just after a send: it is marked in the end, and never sent twice.

The times are those of the program, each divided by 25: a lock of 25 seconds is one second here.
"""

import asyncio
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy import Engine, text
from sqlalchemy.exc import OperationalError

from bot.channels.channel import OutgoingMessage, Receive, SendOutcome, SendResult
from bot.channels.traits import ChannelTraits
from bot.delivery import claims, sender
from bot.delivery.rules import LEASE
from bot.delivery.sender import Sender
from scheduling.records import engine as engine_module
from scheduling.records.engine import open_engine, reading, writing
from tests.bot.delivery.counter import Counter

SENT = SendOutcome(SendResult.SENT)
SHORTER = 25
LOCK_SECONDS = 25 / SHORTER
DATABASE_WAIT = timedelta(seconds=15) / SHORTER


@pytest.fixture
def quick(engine: Engine, monkeypatch: pytest.MonkeyPatch) -> Counter:
    """A counter on a database whose waits are as much shorter as the lock."""
    milliseconds = round(DATABASE_WAIT.total_seconds() * 1000)
    settings = list(engine_module._SQLITE_SETTINGS)
    settings[0] = f"PRAGMA busy_timeout = {milliseconds}"
    monkeypatch.setattr(engine_module, "_SQLITE_SETTINGS", tuple(settings))
    waits = (f"SET lock_timeout = '{milliseconds}ms'",)
    monkeypatch.setattr(engine_module, "_POSTGRESQL_SETTINGS", waits)
    monkeypatch.setattr(claims, "LEASE", LEASE / SHORTER)
    monkeypatch.setattr(sender, "MARK_AGAIN_SECONDS", sender.MARK_AGAIN_SECONDS / SHORTER)
    engine.dispose()
    return Counter(engine)


@contextmanager
def locked(engine: Engine) -> Iterator[None]:
    """Keep everybody else from writing, as an import or an administrator beside the program."""
    other = open_engine(engine.url)
    with other.connect() as connection:
        if engine.dialect.name == "postgresql":
            connection.execute(text("LOCK TABLE outbox IN EXCLUSIVE MODE"))
        else:
            connection.execute(text("SELECT 1"))
        yield
        connection.rollback()
    other.dispose()


@dataclass
class LockedAfterSend:
    """A channel whose first send ends with the database locked by somebody else, for a while."""

    engine: Engine
    seconds: float
    traits = ChannelTraits("phone")
    taken: list[str] = field(default_factory=list)
    result: SendOutcome = SENT
    holding: threading.Thread | None = None

    async def listen(self, receive: Receive) -> None:
        """Nothing comes in by itself."""

    async def send(self, outgoing: OutgoingMessage) -> SendOutcome:
        self.taken.append(outgoing.text)
        if len(self.taken) > 1:
            return SENT
        held = threading.Event()
        self.holding = threading.Thread(target=self._hold, args=(held,))
        self.holding.start()
        await asyncio.to_thread(held.wait)
        return self.result

    def _hold(self, held: threading.Event) -> None:
        with locked(self.engine):
            held.set()
            threading.Event().wait(self.seconds)

    async def close(self) -> None:
        """Nothing to let go of."""


def now() -> datetime:
    return datetime.now(UTC)


def ticks(counter: Counter, line: LockedAfterSend, answering: bool = False) -> None:
    """Let rounds follow each other as the program's ticks do, side by side, until all is sent."""
    post = Sender(counter.engine, {"phone": line}, now)

    async def tick() -> None:
        while any(state in ("planned", "claimed") for state in states(counter.engine)):
            try:
                await (post.answer("11", None) if answering else post.round())
            except OperationalError:
                await asyncio.sleep(0.02)
            await asyncio.sleep(0.02)

    async def run() -> None:
        await asyncio.gather(tick(), tick())

    asyncio.run(run())


def states(engine: Engine) -> list[str]:
    with reading(engine) as session:
        return [state for (state,) in session.execute(text("SELECT state FROM outbox"))]


@pytest.mark.parametrize("answering", [False, True], ids=["a round", "an answer"])
def test_a_lock_longer_than_the_lease_brings_no_second_copy(
    quick: Counter, answering: bool
) -> None:
    plan(quick, "a", "b")
    line = LockedAfterSend(quick.engine, LOCK_SECONDS)
    ticks(quick, line, answering)

    assert line.taken == ["a", "b"]
    assert (quick.state("a"), quick.row("a").attempts) == ("sent", 1)


def test_what_was_not_taken_is_sent_again_when_the_lock_ends(quick: Counter) -> None:
    plan(quick, "a")
    line = LockedAfterSend(quick.engine, LOCK_SECONDS)
    line.result = SendOutcome(SendResult.LATER, wait=timedelta(0))
    ticks(quick, line)

    assert line.taken == ["a", "a"]
    assert quick.state("a") == "sent"


def test_at_the_end_of_the_program_it_is_tried_once_more_and_no_longer(quick: Counter) -> None:
    plan(quick, "a")
    line = LockedAfterSend(quick.engine, 4 * LOCK_SECONDS)
    post = Sender(quick.engine, {"phone": line}, now)

    async def run() -> None:
        carrying = asyncio.create_task(post.round())
        while not line.taken:
            await asyncio.sleep(0.01)
        post.close()
        with pytest.raises(OperationalError):
            await carrying

    asyncio.run(run())
    assert line.holding is not None
    line.holding.join()
    assert quick.state("a") == "claimed"


def test_a_claim_of_a_process_that_died_is_still_taken_for_lost(quick: Counter) -> None:
    """Only a process itself knows what it has in hand."""
    plan(quick, "a")
    with writing(quick.engine) as session:
        assert claims.claim(session, ["phone"], now())
    line = LockedAfterSend(quick.engine, 0)
    ticks(quick, line)

    assert line.taken == ["a"]
    assert quick.row("a").doubts == 1


def plan(counter: Counter, *keys: str) -> None:
    at = (now() - datetime(2027, 5, 12, 10, tzinfo=UTC)).total_seconds()
    for key in keys:
        counter.plan(key, at=at)
