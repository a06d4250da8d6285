"""The post office of a running program: what comes in goes over the desk, what goes out is sent."""

import asyncio
import logging
from collections.abc import Mapping

from sqlalchemy import Engine

from bot.channels.channel import Channel, MessageIn
from bot.desk.desk import Desk
from bot.post.sender import Clock, deliver_all

log = logging.getLogger(__name__)


class Office:
    """Joins the channels to the desk and the outbox.

    Args:
        engine: the database.
        desk: works through messages in.
        channels: the channels by name.
        clock: gives the present instant.

    """

    def __init__(
        self, engine: Engine, desk: Desk, channels: Mapping[str, Channel], clock: Clock
    ) -> None:
        self._engine = engine
        self._desk = desk
        self._channels = channels
        self._clock = clock
        self._in_hand: set[asyncio.Task[None]] = set()
        self._one_round = asyncio.Lock()

    async def receive(self, message: MessageIn) -> None:
        """Take a message in, durably, and answer it; goes on to its end when cancelled."""
        work = asyncio.create_task(self._work(message))
        self._in_hand.add(work)
        work.add_done_callback(self._in_hand.discard)
        await asyncio.shield(work)

    async def deliver(self) -> None:
        """Send what may be sent now; a round that is under way is not doubled."""
        async with self._one_round:
            await deliver_all(self._engine, self._channels, self._clock)

    async def finish(self) -> None:
        """Wait for the messages in hand, and send their answers."""
        await asyncio.gather(*self._in_hand, return_exceptions=True)
        await self.deliver()

    async def _work(self, message: MessageIn) -> None:
        await asyncio.to_thread(self._desk.receive, message, self._clock())
        try:
            await self.deliver()
        except Exception:
            # The message is in and its answer planned; the next tick sends it.
            log.exception("the answer could not be sent yet")
