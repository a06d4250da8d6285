"""The table of signs of life."""

from datetime import datetime

from sqlalchemy.orm import Mapped, mapped_column

from scheduling.records.tables import Base


class HeartbeatRow(Base):
    """When something last happened, whichever worker did it."""

    __tablename__ = "heartbeat"

    name: Mapped[str] = mapped_column(primary_key=True)
    at: Mapped[datetime]
