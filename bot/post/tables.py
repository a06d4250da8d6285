"""Tables of messages in, messages out, and the talk with each person."""

from datetime import date, datetime
from typing import Any

from sqlalchemy import JSON, ForeignKey, Index, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from scheduling.records.tables import Base, Instant


class InboxRow(Base):
    """A message in, kept under its channel's id before the carrier is told that it arrived."""

    __tablename__ = "inbox"
    __table_args__ = (UniqueConstraint("channel", "message_id"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    channel: Mapped[str]
    message_id: Mapped[str]
    address: Mapped[str]
    text: Mapped[str]
    sender: Mapped[str]
    corrects: Mapped[str | None]
    sent_at: Mapped[datetime] = mapped_column(Instant)
    received_at: Mapped[datetime] = mapped_column(Instant)
    state: Mapped[str] = mapped_column(index=True)


class OutboxRow(Base):
    """A message out; ``key`` names its purpose, so the same purpose is queued only once."""

    __tablename__ = "outbox"
    __table_args__ = (
        Index("ix_outbox_state_next_try_at", "state", "next_try_at"),
        Index("ix_outbox_address", "channel", "address", "state"),
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    key: Mapped[str] = mapped_column(unique=True)
    purpose: Mapped[str]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("person.id"))
    channel: Mapped[str]
    address: Mapped[str]
    text: Mapped[str]
    buttons: Mapped[list[Any]] = mapped_column(JSON)
    state: Mapped[str]
    attempts: Mapped[int]
    doubts: Mapped[int]
    """How often it was not known whether the message had arrived."""
    planned_at: Mapped[datetime] = mapped_column(Instant)
    next_try_at: Mapped[datetime] = mapped_column(Instant)
    useful_until: Mapped[datetime | None] = mapped_column(Instant)
    lease_until: Mapped[datetime | None] = mapped_column(Instant)
    ended_at: Mapped[datetime | None] = mapped_column(Instant)
    carrier_id: Mapped[str | None]
    carrier_said: Mapped[str]


class TalkRow(Base):
    """What the conversation with a person has come to; losing it costs one question asked anew."""

    __tablename__ = "talk"

    person_id: Mapped[int] = mapped_column(ForeignKey("person.id"), primary_key=True)
    unanswered: Mapped[str]
    """The last message, if it waits for the name of its yard."""
    last_said: Mapped[dict[str, Any] | None] = mapped_column(JSON(none_as_null=True))
    more: Mapped[list[str]] = mapped_column(JSON)
    """Pieces of the last answer that did not fit and come on "more"."""
    yard_on: Mapped[date | None]
    """The local date on which the talk last turned to a yard."""
