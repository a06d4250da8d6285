"""A store of the parts of concatenated messages in, joined in whatever order they come.

Parts are kept in the database until each message is whole: a crash in between loses none.
"""

import asyncio
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Protocol

from sqlalchemy import ColumnElement, Engine, UniqueConstraint, and_, delete, select
from sqlalchemy.orm import Mapped, Session, mapped_column

from bot.channels.sms.header import PartNumber
from bot.channels.sms.segments import HeaderSize
from bot.channels.traits import SMS
from scheduling.records.engine import writing
from scheduling.records.tables import Base, Instant
from scheduling.records.upsert import insert_or_ignore

WAIT = timedelta(minutes=10)
"""How long the other parts are waited for; a phone sends them within seconds."""


class PartRow(Base):
    """A part of a long message in, kept until the others are there."""

    __tablename__ = "message_part"
    __table_args__ = (
        UniqueConstraint(
            *("channel", "sender", "reference", "header_octets", "total", "number"),
            name="uq_message_part_of_whole",
        ),
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    channel: Mapped[str]
    sender: Mapped[str]
    reference: Mapped[int]
    header_octets: Mapped[int]
    """The size of the header: 7 has references of two octets."""
    total: Mapped[int]
    number: Mapped[int]
    octets: Mapped[bytes]
    received_at: Mapped[datetime] = mapped_column(Instant)


@dataclass(frozen=True)
class Whole:
    """Which long message a part is of: its sender, reference and number of parts."""

    sender: str
    reference: int
    total: int
    size: HeaderSize = HeaderSize.NARROW


def whole_of(sender: str, part: PartNumber) -> Whole:
    """Name the message that a part is of."""
    return Whole(sender, part.reference, part.total, part.size)


def joined_octets(whole: Whole, parts: Mapping[int, bytes]) -> bytes | None:
    """Give the octets of a long message once all its parts are there, by their numbers.

    Octets and not words are joined, since some phones cut a letter in two between parts.
    """
    wanted = range(1, whole.total + 1)
    if any(number not in parts for number in wanted):
        return None
    return b"".join(parts[number] for number in wanted)


def is_given_up(first_at: datetime, now: datetime) -> bool:
    """Tell whether the missing parts are waited for no longer."""
    return now - first_at >= WAIT


@dataclass(frozen=True)
class LongMessage:
    """A long message that is done with waiting.

    Attributes:
        whole: which one.
        first_at: when its first part came.
        octets: all of it, or None if parts never came.
    """

    whole: Whole
    first_at: datetime
    octets: bytes | None

    @property
    def id(self) -> str:
        """The same whenever these parts are joined anew, and no other message's."""
        at = int(self.first_at.timestamp())
        return f"parts:{self.whole.sender}:{self.whole.reference}:{self.whole.total}:{at}"


def keep_part(
    session: Session, sender: str, part: PartNumber, octets: bytes, now: datetime
) -> LongMessage | None:
    """Keep a part; give the message if that was its last. The same part again changes nothing."""
    insert_or_ignore(
        session,
        PartRow,
        channel=SMS.name,
        sender=sender,
        reference=part.reference,
        header_octets=part.size.value,
        total=part.total,
        number=part.number,
        octets=octets,
        received_at=now,
    )
    message = _message(session, whole_of(sender, part))
    return None if message.octets is None else message


def done_waiting(session: Session, now: datetime) -> Iterator[LongMessage]:
    """Give the messages that are whole but were not handed on, and those given up."""
    seen = select(PartRow.sender, PartRow.reference, PartRow.total, PartRow.header_octets)
    for sender, reference, total, octets in session.execute(seen.distinct()).all():
        message = _message(session, Whole(sender, reference, total, HeaderSize(octets)))
        if message.octets is not None or is_given_up(message.first_at, now):
            yield message


def forget_parts(session: Session, whole: Whole) -> None:
    """Let go of a message's parts, once it was handed on."""
    session.execute(delete(PartRow).where(_of(whole)))


def _message(session: Session, whole: Whole) -> LongMessage:
    rows = session.scalars(select(PartRow).where(_of(whole))).all()
    octets = joined_octets(whole, {row.number: row.octets for row in rows})
    return LongMessage(whole, min(row.received_at for row in rows), octets)


def _of(whole: Whole) -> ColumnElement[bool]:
    return and_(
        PartRow.channel == SMS.name,
        PartRow.sender == whole.sender,
        PartRow.reference == whole.reference,
        PartRow.header_octets == whole.size.value,
        PartRow.total == whole.total,
    )


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
