"""Of many workers on one database only one listens on a bot, and another takes over."""

import asyncio
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from datetime import timedelta

import pytest
from sqlalchemy import Engine, text

from bot.channels.channel import (
    ChannelBroken,
    IncomingMessage,
    OutgoingMessage,
    Receive,
    SendOutcome,
    SendResult,
)
from bot.channels.traits import ChannelTraits
from bot.serving import listen_alone
from deploy.standins.waiting import WAIT_AT_MOST_SECONDS
from scheduling.records.engine import open_engine, writing

SOON = timedelta(seconds=0.05)


class Bot:
    """A channel that tells whether it is being listened on."""

    name = "phone"
    traits = ChannelTraits("phone")

    def __init__(self) -> None:
        self.listening = False

    async def listen(self, receive: Receive) -> None:
        self.listening = True
        try:
            await asyncio.Event().wait()
        finally:
            self.listening = False

    async def send(self, outgoing: OutgoingMessage) -> SendOutcome:
        return SendOutcome(SendResult.SENT)

    async def close(self) -> None:
        """Nothing to let go of."""


class BrokenBot(Bot):
    """A channel whose token is refused."""

    async def listen(self, receive: Receive) -> None:
        raise ChannelBroken("the token is refused")


async def nobody(_message: IncomingMessage) -> None:
    """Take no notice."""


@asynccontextmanager
async def worker(engine: Engine, bot: Bot) -> AsyncIterator[None]:
    """A worker that listens when it may."""
    task = asyncio.create_task(listen_alone(engine, bot, nobody, SOON))
    try:
        yield
    finally:
        task.cancel()
        await asyncio.gather(task, return_exceptions=True)


async def until(true: Callable[[], bool]) -> None:
    """Wait until something is so."""
    async with asyncio.timeout(WAIT_AT_MOST_SECONDS):
        while not true():
            await asyncio.sleep(0.01)


def test_the_second_worker_listens_when_the_first_has_stopped(postgresql_engine: Engine) -> None:
    async def story() -> None:
        first, second = Bot(), Bot()
        async with worker(postgresql_engine, second):
            await until(lambda: second.listening)
            async with worker(postgresql_engine, first):
                await asyncio.sleep(0.3)
                assert not first.listening
        async with worker(postgresql_engine, first):
            await until(lambda: first.listening)
            assert not second.listening

    asyncio.run(story())


def test_who_lost_the_database_stops_listening_and_one_listens_again(
    postgresql_engine: Engine,
) -> None:
    async def story() -> None:
        bot, admin = Bot(), open_engine(postgresql_engine.url)
        async with worker(postgresql_engine, bot):
            await until(lambda: bot.listening)
            await asyncio.to_thread(end_all_others, admin)
            await until(lambda: not bot.listening)
            await until(lambda: bot.listening)
        admin.dispose()

    asyncio.run(story())


def end_all_others(engine: Engine) -> None:
    """End every other connection to this database, as a restart of the server does."""
    ended = "SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname ="
    with writing(engine) as session:
        session.execute(text(f"{ended} current_database() AND pid <> pg_backend_pid()"))


def test_a_broken_channel_is_told_of(engine: Engine) -> None:
    with pytest.raises(ChannelBroken):
        asyncio.run(listen_alone(engine, BrokenBot(), nobody, SOON))
