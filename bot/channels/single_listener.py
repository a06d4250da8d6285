"""Listening on a channel that only one of many workers may listen on."""

import asyncio
from datetime import timedelta

from sqlalchemy import Engine

from bot.channels.channel import Channel, Receive
from bot.program_log import log_of
from scheduling.records.locks import LastingLock

log = log_of(__name__)

LOOK_AGAIN = timedelta(seconds=5)
"""How long a worker waits before it asks anew whether the lock is free, or still its own."""


async def listen_alone(
    engine: Engine, channel: Channel, receive: Receive, look_again: timedelta = LOOK_AGAIN
) -> None:
    """Listen whenever no other worker on this database does, until cancelled.

    A bot that two fetched from would give each of them only some of its messages.

    Raises:
        ChannelBroken: the channel can never work.
    """
    while True:
        lock = LastingLock(engine, f"listening:{channel.traits.name}")
        try:
            if await _taken(lock):
                await _listen_while_held(lock, channel, receive, look_again)
        finally:
            lock.give_back()
        await asyncio.sleep(look_again.total_seconds())


async def _taken(lock: LastingLock) -> bool:
    try:
        return await asyncio.to_thread(lock.take)
    except Exception:
        log.exception("the database could not be asked whether another worker listens")
        return False


async def _listen_while_held(
    lock: LastingLock, channel: Channel, receive: Receive, look_again: timedelta
) -> None:
    listening = asyncio.create_task(channel.listen(receive))
    try:
        while await asyncio.to_thread(lock.is_held):
            done, _ = await asyncio.wait([listening], timeout=look_again.total_seconds())
            if done:
                return listening.result()
        log.warning("stopped listening, another worker may listen now", channel=channel.traits.name)
    finally:
        listening.cancel()
        await asyncio.gather(listening, return_exceptions=True)
