"""The rate limit of guesses at codes: for each sender, and for the whole machine."""

from datetime import datetime, timedelta

from sqlalchemy import Index, Select, delete, func, select
from sqlalchemy.orm import Mapped, Session, mapped_column

from scheduling.records.tables import Base

SPAN = timedelta(hours=1)
"""How long a wrong code counts against further ones."""

MOST_OF_ONE = 5
"""Wrong codes of one sender within that time: slips of the finger, and no more."""

MOST_IN_ALL = 60
"""Wrong codes of everybody within that time. In two weeks that makes 20,160 guesses at one in
887 million (31 letters and digits, 6 of them)."""

MANY = 20
"""Wrong codes within a day of which owners hear."""

_A_DAY = timedelta(days=1)


class WrongCodeRow(Base):
    """A try at a code that let nobody in."""

    __tablename__ = "wrong_code"
    __table_args__ = (Index("ix_wrong_code_sender", "channel", "address", "tried_at"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    channel: Mapped[str]
    address: Mapped[str]
    tried_at: Mapped[datetime] = mapped_column(index=True)
    looked_at: Mapped[bool]
    """The code was looked up; if not, too many were wrong before it."""


def is_code_looked_at(session: Session, channel: str, address: str, now: datetime) -> bool:
    """Tell whether a sender's code is looked up, or too many were wrong just now."""
    recent = _tries(now - SPAN, now).where(WrongCodeRow.looked_at)
    of_one = session.scalar(_by(recent, channel, address)) or 0
    return of_one < MOST_OF_ONE and (session.scalar(recent) or 0) < MOST_IN_ALL


def note_wrong_code(
    session: Session, channel: str, address: str, now: datetime, *, looked_at: bool
) -> bool:
    """Keep a try that let nobody in; False if the sender was told already to wait.

    Tries of more than a day ago are forgotten.
    """
    session.execute(delete(WrongCodeRow).where(WrongCodeRow.tried_at <= now - _A_DAY))
    waits = _by(_tries(now - SPAN, now).where(WrongCodeRow.looked_at.is_(False)), channel, address)
    if not looked_at and session.scalar(waits):
        return False
    row = WrongCodeRow(channel=channel, address=address, tried_at=now, looked_at=looked_at)
    session.add(row)
    session.flush()
    return True


def wrong_codes_of_the_day(session: Session, now: datetime) -> int:
    """Count the codes that were looked up within a day and were wrong."""
    return session.scalar(_tries(now - _A_DAY, now).where(WrongCodeRow.looked_at)) or 0


def _tries(after: datetime, until: datetime) -> Select[int]:
    # Later than now means that the clock was set back since.
    between = (WrongCodeRow.tried_at > after) & (WrongCodeRow.tried_at <= until)
    return select(func.count(WrongCodeRow.id)).where(between)


def _by(tries: Select[int], channel: str, address: str) -> Select[int]:
    return tries.where(WrongCodeRow.channel == channel, WrongCodeRow.address == address)
