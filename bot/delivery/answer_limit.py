"""The rate limit of answers by text: so many segments for one number within one day.

Whoever sends more than that is noted all the same, and takes nothing of the month from others.
"""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from sqlalchemy.orm import Mapped, Session, mapped_column

from scheduling.records.tables import Base


class AnswersByTextRow(Base):
    """The segments of answers that an address had on the last day on which it had one."""

    __tablename__ = "answers_by_text"

    channel: Mapped[str] = mapped_column(primary_key=True)
    address: Mapped[str] = mapped_column(primary_key=True)
    day: Mapped[date]
    segments: Mapped[int]
    told: Mapped[bool]
    """That it was said that there are no more today."""


class Answering(StrEnum):
    """What is done about an answer."""

    ANSWER = "answer"
    SAY_LIMIT = "say that there are no more today"
    NOTHING = "nothing"


@dataclass(frozen=True)
class AnswerLimit:
    """So many segments of answers for one address within one day of its person."""

    segments: int

    def take(
        self, session: Session, channel: str, address: str, day: date, segments: int
    ) -> Answering:
        """Count an answer in, and say whether it goes.

        Args:
            session: the transaction; nobody else answers the same address meanwhile.
            channel: the channel's name.
            address: who is answered.
            day: the person's local date.
            segments: how many the answer takes.
        """
        row = _row(session, channel, address, day)
        if row.told:
            return Answering.NOTHING
        row.told = row.segments + segments > self.segments
        row.segments += 0 if row.told else segments
        session.flush()
        return Answering.SAY_LIMIT if row.told else Answering.ANSWER


def _row(session: Session, channel: str, address: str, day: date) -> AnswersByTextRow:
    row = session.get(AnswersByTextRow, (channel, address))
    if row is None:
        row = AnswersByTextRow(channel=channel, address=address)
        session.add(row)
    elif row.day == day:
        return row
    row.day, row.segments, row.told = day, 0, False
    return row
