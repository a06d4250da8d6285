"""A Telegram channel that listens to the stand-in for the length of a test."""

import asyncio
import contextlib
from collections.abc import AsyncIterator, Callable
from dataclasses import dataclass, field
from datetime import timedelta

from bot.channels.channel import IncomingMessage
from bot.channels.telegram.channel import TelegramChannel
from deploy.standins.bot_api_standin import TOKEN
from deploy.standins.quick_retry import QUICK
from deploy.standins.waiting import WAIT_AT_MOST_SECONDS


def quick_channel(
    url: str, token: str = TOKEN, answer_within: float = 5.0, **menu: str
) -> TelegramChannel:
    """A channel with short waits, in seconds; further keywords are the menu."""
    return TelegramChannel(
        token,
        url,
        commands=menu,
        poll_for=timedelta(milliseconds=300),
        answer_within=timedelta(seconds=answer_within),
        retry=QUICK,
    )


@dataclass
class Desk:
    """Receives messages, after failing for as often as told.

    Attributes:
        received: what was stored, in order.
        offered: what was handed in, stored or not.
        failures: how many of the next ones are not stored.
    """

    received: list[IncomingMessage] = field(default_factory=list)
    offered: list[IncomingMessage] = field(default_factory=list)
    failures: int = 0

    async def receive(self, message: IncomingMessage) -> None:
        self.offered.append(message)
        if self.failures:
            self.failures -= 1
            raise OSError("the disk is full")
        self.received.append(message)

    @property
    def texts(self) -> list[str]:
        return [message.text for message in self.received]


@contextlib.asynccontextmanager
async def listening(url: str, desk: Desk) -> AsyncIterator[TelegramChannel]:
    """Listen until the block ends."""
    channel = quick_channel(url)
    task = asyncio.create_task(channel.listen(desk.receive))
    try:
        yield channel
    finally:
        task.cancel()
        with contextlib.suppress(asyncio.CancelledError):
            await task
        await channel.close()


async def eventually(true: Callable[[], bool], seconds: float = WAIT_AT_MOST_SECONDS) -> None:
    """Wait until something holds.

    Raises:
        TimeoutError: it did not hold in time.
    """
    async with asyncio.timeout(seconds):
        while not true():
            await asyncio.sleep(0.005)


def hear(url: str, count: int, desk: Desk | None = None) -> list[IncomingMessage]:
    """Listen until ``count`` messages were received, and a little longer for one too many."""
    desk = desk or Desk()

    async def run() -> None:
        async with listening(url, desk):
            await eventually(lambda: len(desk.received) >= count)
            await asyncio.sleep(0.05)

    asyncio.run(run())
    return desk.received
