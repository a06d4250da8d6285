"""Keeping the parts of long messages in until each is whole: a crash in between loses none."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import ColumnElement, and_, delete, select
from sqlalchemy.orm import Session

from bot.channels.sms.header import PartNumber
from bot.channels.sms.joining import Whole, given_up, joined, whole_of
from bot.channels.sms.names import CHANNEL_NAME
from bot.channels.sms.segments import HeaderSize
from bot.channels.tables import PartRow
from scheduling.records.upsert import insert_or_ignore


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
        channel=CHANNEL_NAME,
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
        if message.octets is not None or given_up(message.first_at, now):
            yield message


def forget_parts(session: Session, whole: Whole) -> None:
    """Let go of a message's parts, once it was handed on."""
    session.execute(delete(PartRow).where(_of(whole)))


def _message(session: Session, whole: Whole) -> LongMessage:
    rows = session.scalars(select(PartRow).where(_of(whole))).all()
    octets = joined(whole, {row.number: row.octets for row in rows})
    return LongMessage(whole, min(row.received_at for row in rows), octets)


def _of(whole: Whole) -> ColumnElement[bool]:
    return and_(
        PartRow.channel == CHANNEL_NAME,
        PartRow.sender == whole.sender,
        PartRow.reference == whole.reference,
        PartRow.header_octets == whole.size.value,
        PartRow.total == whole.total,
    )
