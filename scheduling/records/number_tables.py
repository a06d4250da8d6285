"""Tables of numbers that are nobody's yet: those that were asked, and those that wrote unasked."""

from datetime import datetime

from sqlalchemy import ForeignKeyConstraint, Index
from sqlalchemy.orm import Mapped, mapped_column

from scheduling.records.tables import Base


class NumberAskedRow(Base):
    """A number that was asked, once, whether it wants our messages."""

    __tablename__ = "number_asked"
    __table_args__ = (
        ForeignKeyConstraint(["crew_id", "made_by"], ["person.crew_id", "person.id"]),
        ForeignKeyConstraint(["crew_id", "person_id"], ["person.crew_id", "person.id"]),
        Index("ix_number_asked_channel", "channel", "address"),
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    crew_id: Mapped[int]
    made_by: Mapped[int]
    channel: Mapped[str]
    address: Mapped[str]
    name: Mapped[str | None]
    """What the asking person calls whom they asked."""
    person_id: Mapped[int | None]
    """Whose further number it is; empty for somebody who is to join the crew."""
    made_at: Mapped[datetime]
    ended_at: Mapped[datetime | None]
    outcome: Mapped[str | None]
    """How it ended; empty while it is open."""


class StrangerRow(Base):
    """A number that is nobody's: when it was last answered, and whether it wants silence."""

    __tablename__ = "stranger"

    channel: Mapped[str] = mapped_column(primary_key=True)
    address: Mapped[str] = mapped_column(primary_key=True)
    answered_at: Mapped[datetime | None]
    refused_at: Mapped[datetime | None]
    """When it said stop; no invite goes to it until it writes of its own accord."""
