"""Tables of what carriers tell: how messages out fared, and parts of messages in."""

from datetime import datetime

from sqlalchemy import UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from scheduling.records.tables import Base, Instant


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
    reported_at: Mapped[datetime] = mapped_column(Instant)


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
