"""What every part of the running program reports: counters and heartbeats.

Counters tell what this process has done since it started; ``bot.web.app`` exports them.

Heartbeats tell when each thing last happened, in memory at once and in the database now and then. A
process notes its own in memory, since a row for each would make a transaction a second of a program
that has nothing to do. The monitor tick writes them to the table, where every worker and every
command can read them.
"""

from collections import Counter
from collections.abc import Mapping
from datetime import datetime
from enum import StrEnum
from threading import Lock

from sqlalchemy import select
from sqlalchemy.orm import Mapped, Session, mapped_column

from scheduling.records.tables import Base
from scheduling.records.upsert import insert_into

_lock = Lock()


class Counted(StrEnum):
    """What is counted; the value says what one more of it means."""

    MESSAGES_IN = "Messages in that were worked through, by channel."
    READINGS = "Texts read, by what came of them."
    SENDS = "Tries to send a message, by channel and result."
    EXPIRED = "Messages out that were no longer of use when they could have been sent."
    MORNINGS = "People whose morning was looked at."
    TICKS = "Ticks that ended, by name and how."
    SET_ASIDE = "Messages in that could not be worked through and were set aside, by channel."
    POLLS = "Fetches that a carrier answered, by channel."
    SEGMENTS = "Segments of SMS that a carrier took, by carrier."


Key = tuple[Counted, tuple[tuple[str, str], ...]]
"""What was counted, and its labels."""

_counts: Counter[Key] = Counter()


def count(what: Counted, number: int = 1, **labels: str) -> None:
    """Count; safe from any thread. Labels are of few values each, and never a person's."""
    with _lock:
        _counts[what, tuple(sorted(labels.items()))] += number


def all_counts() -> dict[Key, int]:
    """Give all counts so far."""
    with _lock:
        return dict(_counts)


START = "start"
"""The beat of a start of the program."""

END = "end"
"""The beat of an end of the program that was not its death."""

FOUNDING = "founding"
"""The beginning of the names of beats that tell who might found a crew at the last start."""

_beats: dict[str, datetime] = {}
_unwritten: set[str] = set()


def tick_name(tick: str) -> str:
    """Name the beat of a tick of the job scheduler that went well."""
    return f"tick:{tick}"


def poll_name(channel: str) -> str:
    """Name the beat of a fetch that the carrier answered."""
    return f"poll:{channel}"


def running_name(channel: str) -> str:
    """Name the beat of a program that runs a channel, whether or not its carrier answers."""
    return f"running:{channel}"


def founding_name(founding: str) -> str:
    """Name the beat of a start at which crews might be founded by such people."""
    return f"{FOUNDING}:{founding}"


def sent_name(channel: str) -> str:
    """Name the beat of a message that the carrier took."""
    return f"sent:{channel}"


def beat(name: str, at: datetime) -> None:
    """Note that something happened; safe from any thread."""
    with _lock:
        _beats[name] = at
        _unwritten.add(name)


def last_beat(name: str) -> datetime | None:
    """When it last happened in this process."""
    with _lock:
        return _beats.get(name)


def take_unwritten() -> dict[str, datetime]:
    """Give what was noted since the last call."""
    with _lock:
        taken = {name: _beats[name] for name in _unwritten}
        _unwritten.clear()
    return taken


class HeartbeatRow(Base):
    """When something last happened, whichever worker did it."""

    __tablename__ = "heartbeat"

    name: Mapped[str] = mapped_column(primary_key=True)
    at: Mapped[datetime]


def write_beats(session: Session, beats: Mapping[str, datetime]) -> None:
    """Write beats down over those that were written before."""
    if not beats:
        return
    # In the order of their names, so that two workers never wait for each other's rows.
    adding = insert_into(session, HeartbeatRow).values(
        [{"name": name, "at": beats[name]} for name in sorted(beats)]
    )
    session.execute(
        adding.on_conflict_do_update(
            index_elements=[HeartbeatRow.name], set_={"at": adding.excluded.at}
        )
    )


def beats_in(session: Session) -> dict[str, datetime]:
    """Give the last of each, by name."""
    return {row.name: row.at for row in session.scalars(select(HeartbeatRow))}
