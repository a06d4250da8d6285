"""Tables of messages in, messages out and how they fared, and the talk with each person."""

from datetime import date, datetime
from typing import Any

from sqlalchemy import (
    JSON,
    BindParameter,
    ColumnElement,
    ForeignKey,
    UniqueConstraint,
    bindparam,
    false,
    literal_column,
)
from sqlalchemy.orm import Mapped, mapped_column

from bot.channels.traits import charged_channels
from scheduling.records.tables import Base, Instant, index_of_some

_OPEN = "state IN ('planned', 'claimed')"
_IN_DOUBT = "state IN ('unknown', 'expired')"
_CHARGED = "channel IN ('sms') AND state IN ('sent', 'unknown')"


class InboxRow(Base):
    """A message in, kept under its channel's id before the carrier is told that it arrived."""

    __tablename__ = "inbox"
    __table_args__ = (
        UniqueConstraint("channel", "message_id"),
        index_of_some("ix_inbox_album", "album IS NOT NULL", "channel", "album"),
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    channel: Mapped[str]
    message_id: Mapped[str]
    address: Mapped[str]
    text: Mapped[str]
    sender: Mapped[str]
    corrects: Mapped[str | None]
    sent_at: Mapped[datetime] = mapped_column(Instant)
    received_at: Mapped[datetime] = mapped_column(Instant, index=True)
    state: Mapped[str] = mapped_column(index=True)
    tap: Mapped[str | None]
    """The carrier's id of the tap on a button that this message stands for."""
    replies_to: Mapped[str | None]
    """The carrier's id of the message that it quotes, or under which the button was."""
    album: Mapped[str | None]
    """The carrier's id of the album that it is a part of."""
    in_group: Mapped[bool] = mapped_column(server_default=false())
    """Nobody wrote it: the bot was added to a group."""


class KnownRow(Base):
    """The id of a message in that is let go of, so that it is still known when it is told again."""

    __tablename__ = "message_known"

    channel: Mapped[str] = mapped_column(primary_key=True)
    message_id: Mapped[str] = mapped_column(primary_key=True)


class OutboxRow(Base):
    """A message out; ``key`` names its purpose, so the same purpose is queued only once."""

    __tablename__ = "outbox"
    __table_args__ = (
        index_of_some("ix_outbox_planned", "state = 'planned'", "queue", "next_try_at", "id"),
        index_of_some("ix_outbox_open_of_address", _OPEN, "channel", "address", "queue", "id"),
        index_of_some("ix_outbox_leases", "state = 'claimed'", "lease_until"),
        index_of_some("ix_outbox_in_doubt", _IN_DOUBT, "channel", "next_try_at"),
        index_of_some("ix_outbox_last_use", "state = 'planned'", "useful_until"),
        index_of_some("ix_outbox_about", "about IS NOT NULL", "person_id", "about"),
        index_of_some("ix_outbox_fallback_at", "fallback_at IS NOT NULL", "fallback_at"),
        index_of_some("ix_outbox_carrier_id", "carrier_id IS NOT NULL", "channel", "carrier_id"),
        index_of_some("ix_outbox_ended", "ended_at IS NOT NULL", "ended_at", "state"),
        index_of_some("ix_outbox_charged", _CHARGED, "ended_at"),
        index_of_some("ix_outbox_edits", "edits IS NOT NULL", "channel", "edits"),
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    key: Mapped[str] = mapped_column(unique=True)
    purpose: Mapped[str]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("person.id"))
    channel: Mapped[str]
    address: Mapped[str]
    text: Mapped[str]
    buttons: Mapped[list[Any]] = mapped_column(JSON)
    queue: Mapped[int] = mapped_column("lane", key="queue")
    state: Mapped[str]
    attempts: Mapped[int]
    doubts: Mapped[int]
    """How often it was not known whether the message had arrived."""
    parts_sent: Mapped[int]
    """How many parts of a message too long for one have arrived."""
    about: Mapped[date | None]
    """The person's local date that a morning tells of."""
    planned_at: Mapped[datetime] = mapped_column(Instant)
    next_try_at: Mapped[datetime] = mapped_column(Instant)
    useful_until: Mapped[datetime | None] = mapped_column(Instant)
    lease_until: Mapped[datetime | None] = mapped_column(Instant)
    ended_at: Mapped[datetime | None] = mapped_column(Instant)
    carrier_id: Mapped[str | None]
    carrier_said: Mapped[str]
    error: Mapped[str | None] = mapped_column("trouble", key="error")
    """What kept the message from arriving at the last try, from the closed list of send errors."""
    quiet_until: Mapped[datetime | None] = mapped_column(Instant)
    """Until when the person's quiet hours keep it back."""
    delivery: Mapped[str | None]
    """How far it got by the carrier's reports; empty while none came."""
    fallback_at: Mapped[datetime | None] = mapped_column(Instant)
    """From when on it goes over the person's next channel, if it has not arrived."""
    document: Mapped[dict[str, str] | None] = mapped_column(JSON(none_as_null=True))
    """The name and text of a file that goes with it, until it was sent."""
    of_message: Mapped[str | None]
    """The id of the message in under which stands what this one tells of."""
    places: Mapped[list[list[str]] | None] = mapped_column(JSON(none_as_null=True))
    """The yards and units that a reply which names none is about."""
    edits: Mapped[str | None]
    """The carrier's id of the message whose place this one takes."""


# Written into the statements and not passed as values, so that the partial indexes serve.
IS_PLANNED = OutboxRow.state == literal_column("'planned'")
IS_CLAIMED = OutboxRow.state == literal_column("'claimed'")


def is_open(rows: type[OutboxRow] = OutboxRow) -> ColumnElement[bool]:
    """Tell the messages that others of their queue wait behind."""
    return rows.state.in_((literal_column("'planned'"), literal_column("'claimed'")))


def is_charged() -> ColumnElement[bool]:
    """Say what the carrier charges for: a text not known to have arrived was most likely taken.

    Written into the statement as it stands, since the index of such texts is only used so.
    """
    names: BindParameter[str] = bindparam(
        "charged", charged_channels(), expanding=True, literal_execute=True
    )
    sent: ColumnElement[str] = literal_column("'sent'")
    unknown: ColumnElement[str] = literal_column("'unknown'")
    return OutboxRow.channel.in_(names) & OutboxRow.state.in_((sent, unknown))


class DeliveryRow(Base):
    """How far a message got by its carrier's reports; they may come before its send is answered."""

    __tablename__ = "delivery_report"
    __table_args__ = (UniqueConstraint("channel", "carrier_id"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    channel: Mapped[str]
    carrier_id: Mapped[str]
    key: Mapped[str] = mapped_column(index=True)
    """Our own key of the message, where the carrier repeats it, else empty."""
    delivery: Mapped[str]
    error: Mapped[str | None] = mapped_column("trouble", key="error")
    reported_at: Mapped[datetime] = mapped_column(Instant, index=True)


class RateLimitRow(Base):
    """When an address, or with an empty address everybody on a channel, may be sent to next."""

    __tablename__ = "pace"

    channel: Mapped[str] = mapped_column(primary_key=True)
    address: Mapped[str] = mapped_column(primary_key=True)
    free_at: Mapped[datetime] = mapped_column(Instant, index=True)
    asked_until: Mapped[datetime | None] = mapped_column(Instant)
    """Until when the carrier asked us to wait."""
    noted_at: Mapped[datetime | None] = mapped_column(Instant)
    """When this was written down; later than now means that the clock was set back since."""


class ConversationStateRow(Base):
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
    spoken_yard: Mapped[str | None]
    """The yard last spoken of, whichever day that was."""
    to_confirm: Mapped[dict[str, str] | None] = mapped_column(JSON(none_as_null=True))
    """What waits for a yes: the text, and the id of the message that said it."""
