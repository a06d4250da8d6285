"""The table of mornings that were made ready before their hour."""

from datetime import date
from typing import Any

from sqlalchemy import JSON, ForeignKey, String
from sqlalchemy.orm import Mapped, mapped_column

from scheduling.records.tables import Base


class ReadyMorningRow(Base):
    """A person's next morning, worded ahead; it is a cache, and losing it loses nothing."""

    __tablename__ = "ready_morning"

    person_id: Mapped[int] = mapped_column(ForeignKey("person.id"), primary_key=True)
    day: Mapped[date]
    made_of: Mapped[str] = mapped_column(String(64))
    """A hash of all that it was worked out from."""
    parts: Mapped[list[str]] = mapped_column(JSON)
    """The text and what ``more`` gives; none where nothing is due."""
    buttons: Mapped[list[Any]] = mapped_column(JSON)
