"""The round that carries planned messages to their channels."""

import asyncio
import logging
from collections.abc import Callable, Mapping
from datetime import datetime

from sqlalchemy import Engine

from bot.channels.channel import Channel, SendOutcome, SendResult
from bot.events import log_of
from bot.post import outbox
from bot.post.addresses import note_outcome
from bot.watch.pulse import beat, sent_name
from bot.watch.tally import Counted, count
from scheduling.records.engine import writing

log = log_of(__name__)

Clock = Callable[[], datetime]
"""Gives the present instant, aware, in UTC."""


def _always() -> bool:
    return True


async def deliver(
    engine: Engine, channels: Mapping[str, Channel], clock: Clock, only_to: str | None = None
) -> bool:
    """Send one message that may be sent now; False if there is none.

    One is claimed, sent and marked before the next, so that a crash leaves only one in doubt.

    Args:
        engine: the database.
        channels: the running channels by name; messages of others stay.
        clock: gives the present instant.
        only_to: an address, to leave all others' messages alone.

    """
    claimed = await asyncio.to_thread(_claim, engine, list(channels), clock(), only_to)
    for message in claimed:
        outcome = await _send(channels[message.channel], message)
        await asyncio.to_thread(_mark, engine, message, outcome, clock())
    return bool(claimed)


async def deliver_all(
    engine: Engine,
    channels: Mapping[str, Channel],
    clock: Clock,
    only_to: str | None = None,
    going_on: Callable[[], bool] = _always,
) -> None:
    """Send until nothing more may be sent now, or ``going_on`` says no."""
    while going_on() and await deliver(engine, channels, clock, only_to):
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
        return outbox.claim(session, channels, now, most=1, only_to=only_to)


def _mark(engine: Engine, message: outbox.Claimed, outcome: SendOutcome, now: datetime) -> None:
    with writing(engine) as session:
        outbox.mark(session, message, outcome, now)
        note_outcome(session, message, outcome, now)
    _tell(message, outcome, now)


def _tell(message: outbox.Claimed, outcome: SendOutcome, now: datetime) -> None:
    """Let the log, the counts and the signs of life know how a send ended."""
    count(Counted.SENDS, channel=message.channel, result=outcome.result)
    sent = outcome.result is SendResult.SENT
    if sent:
        beat(sent_name(message.channel), now)
    # The carrier's words stay with the row: an error of our own might repeat the letter's.
    log.log(
        logging.INFO if sent else logging.WARNING,
        "a message was sent" if sent else "a message was not sent",
        number=message.id,
        channel=message.channel,
        attempt=message.attempt,
        result=str(outcome.result),
        wait_seconds=None if outcome.wait is None else outcome.wait.total_seconds(),
    )
