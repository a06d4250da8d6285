"""The post office of a running program: what comes in goes over the desk, what goes out is sent."""

import asyncio
from collections.abc import Coroutine, Mapping

from sqlalchemy import Engine

from bot.channels.channel import Channel, MessageIn
from bot.desk.desk import Desk
from bot.events import log_of
from bot.post.sender import Clock, deliver_all

log = log_of(__name__)


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
        # An answer may wait behind a message that is on its way to the same person.
        self._unanswered: set[str] = set()
        self._one_round = asyncio.Lock()
        self._closing = False

    async def receive(self, message: MessageIn) -> None:
        """Take a message in, durably, and answer it; goes on to its end when cancelled."""
        await self._to_its_end(self._work(message))

    async def deliver(self) -> None:
        """Send what may be sent now; a round that is under way is not doubled.

        A cancelled round still ends the send in hand: cut off, it might be sent once more.
        """
        await self._to_its_end(self._round())

    async def finish(self) -> None:
        """Send the answers to the messages in hand, and no more than that."""
        self._closing = True
        while self._in_hand:
            await asyncio.gather(*self._in_hand, return_exceptions=True)
        for address in tuple(self._unanswered):
            await self._answer(address)

    async def _to_its_end(self, work: Coroutine[None, None, None]) -> None:
        task = asyncio.create_task(work)
        self._in_hand.add(task)
        task.add_done_callback(self._in_hand.discard)
        await asyncio.shield(task)

    async def _round(self) -> None:
        async with self._one_round:
            answered = set(self._unanswered)
            await deliver_all(
                self._engine, self._channels, self._clock, going_on=lambda: not self._closing
            )
            if not self._closing:
                self._unanswered -= answered

    async def _work(self, message: MessageIn) -> None:
        await asyncio.to_thread(self._desk.receive, message, self._clock())
        self._unanswered.add(message.address)
        await self._answer(message.address)

    async def _answer(self, address: str) -> None:
        """Send what waits for an address, without waiting for a round of everybody's messages."""
        try:
            await deliver_all(self._engine, self._channels, self._clock, only_to=address)
        except Exception:
            # The message is in and its answer planned; the next tick sends it.
            log.exception("the answer could not be sent yet")
