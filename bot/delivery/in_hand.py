"""Notes of messages in hand, by which one that kills the process is known when it comes again.

A carrier gives out anew what was not confirmed, so such a message would kill each process that is
started, and no other message would ever be worked through. A note costs a transaction, and is
written only where a message may have been in hand before.
"""

from datetime import datetime, timedelta

from sqlalchemy import Engine, String, delete
from sqlalchemy.orm import Mapped, Session, mapped_column

from bot.monitoring import END, START, beats_in, write_beats
from scheduling.records.engine import writing
from scheduling.records.tables import Base
from scheduling.records.upsert import insert_or_ignore

MOST_DEATHS = 2
"""With how many processes a message may die before it is set aside."""

CAREFUL_FOR = timedelta(hours=1)
"""How long after a process died the next one notes what it has in hand; a mail server comes again
within it (common practice, no source)."""


class InHandRow(Base):
    """A message that a process has in hand, or had when it died."""

    __tablename__ = "in_hand"

    channel: Mapped[str] = mapped_column(String, primary_key=True)
    message_id: Mapped[str] = mapped_column(String, primary_key=True)
    run: Mapped[str] = mapped_column(String)
    """Names the process."""
    deaths: Mapped[int]
    """How many processes died with it before this one."""


def note_in_hand(session: Session, channel: str, message_id: str, run: str) -> int:
    """Note that a process has a message in hand; gives how many died with it before."""
    key = {"channel": channel, "message_id": message_id}
    if insert_or_ignore(session, InHandRow, **key, run=run, deaths=0) is not None:
        return 0
    row = session.get_one(InHandRow, (channel, message_id), with_for_update=True)
    if row.run != run:
        row.run, row.deaths = run, row.deaths + 1
    return row.deaths


def put_down(session: Session, channel: str, message_id: str) -> None:
    """Let go of the note of a message."""
    noted = (InHandRow.channel == channel) & (InHandRow.message_id == message_id)
    session.execute(delete(InHandRow).where(noted))


def put_down_all(session: Session, run: str) -> None:
    """Let go of the notes of a process."""
    session.execute(delete(InHandRow).where(InHandRow.run == run))


def begin_run(engine: Engine, now: datetime) -> datetime | None:
    """Note that a process begins; gives until when it is to be careful, if the last one died."""
    with writing(engine) as session:
        beats = beats_in(session)
        write_beats(session, {START: now})
    began, ended = beats.get(START), beats.get(END)
    died = began is not None and (ended is None or ended < began)
    return now + CAREFUL_FOR if died else None


def end_run(engine: Engine, now: datetime) -> None:
    """Note that a process ends as it should."""
    with writing(engine) as session:
        write_beats(session, {END: now})
