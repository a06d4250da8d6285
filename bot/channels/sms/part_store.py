"""Where a channel keeps the parts of long messages in."""

import asyncio
from datetime import datetime
from typing import Protocol

from sqlalchemy import Engine

from bot.channels.sms.header import PartNumber
from bot.channels.sms.joining import Whole
from bot.channels.sms.parts_kept import LongMessage, done_waiting, forget_parts, keep_part
from scheduling.records.engine import writing


class PartStore(Protocol):
    """Keeps parts durably."""

    async def keep(
        self, sender: str, part: PartNumber, octets: bytes, now: datetime
    ) -> LongMessage | None:
        """Keep a part; give the message if that was its last."""

    async def done_waiting(self, now: datetime) -> list[LongMessage]:
        """Give the messages that are whole but were not handed on, and those given up."""

    async def forget(self, whole: Whole) -> None:
        """Let go of a message's parts."""


class DatabaseParts:
    """Keeps parts in the database."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    async def keep(
        self, sender: str, part: PartNumber, octets: bytes, now: datetime
    ) -> LongMessage | None:
        """Keep a part; give the message if that was its last."""
        return await asyncio.to_thread(self._keep, sender, part, octets, now)

    async def done_waiting(self, now: datetime) -> list[LongMessage]:
        """Give the messages that are whole but were not handed on, and those given up."""
        return await asyncio.to_thread(self._done_waiting, now)

    async def forget(self, whole: Whole) -> None:
        """Let go of a message's parts."""
        await asyncio.to_thread(self._forget, whole)

    def _keep(
        self, sender: str, part: PartNumber, octets: bytes, now: datetime
    ) -> LongMessage | None:
        with writing(self._engine) as session:
            return keep_part(session, sender, part, octets, now)

    def _done_waiting(self, now: datetime) -> list[LongMessage]:
        with writing(self._engine) as session:
            return list(done_waiting(session, now))

    def _forget(self, whole: Whole) -> None:
        with writing(self._engine) as session:
            forget_parts(session, whole)
