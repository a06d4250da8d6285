"""The round that carries planned messages to their channels."""

import asyncio
from collections.abc import Callable, Mapping
from datetime import datetime

from sqlalchemy import Engine

from bot.channels.channel import Channel, SendOutcome, SendResult
from bot.post import outbox
from bot.post.addresses import note_outcome
from scheduling.records.engine import writing

Clock = Callable[[], datetime]
"""Gives the present instant, aware, in UTC."""


async def deliver(
    engine: Engine, channels: Mapping[str, Channel], clock: Clock, only_to: str | None = None
) -> int:
    """Send what may be sent now, or only what goes to one address; returns how many were tried.

    A message is marked right after its own send, so that a crash leaves at most one in doubt.
    """
    claimed = await asyncio.to_thread(_claim, engine, list(channels), clock(), only_to)
    for message in claimed:
        outcome = await _send(channels[message.channel], message)
        await asyncio.to_thread(_mark, engine, message, outcome, clock())
    return len(claimed)


async def deliver_all(
    engine: Engine, channels: Mapping[str, Channel], clock: Clock, only_to: str | None = None
) -> None:
    """Send until nothing more may be sent now."""
    while await deliver(engine, channels, clock, only_to):
        pass


async def _send(channel: Channel, message: outbox.Claimed) -> SendOutcome:
    try:
        return await channel.send(message.letter)
    except Exception as error:  # noqa: BLE001 - one bad letter must not stop the round
        return SendOutcome(SendResult.UNKNOWN, said=f"{type(error).__name__}: {error}")


def _claim(
    engine: Engine, channels: list[str], now: datetime, only_to: str | None
) -> list[outbox.Claimed]:
    with writing(engine) as session:
        return outbox.claim(session, channels, now, only_to=only_to)


def _mark(engine: Engine, message: outbox.Claimed, outcome: SendOutcome, now: datetime) -> None:
    with writing(engine) as session:
        outbox.mark(session, message.id, outcome, now)
        note_outcome(session, message, outcome, now)
