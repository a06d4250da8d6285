"""Signs of life of this process, noted in memory as they come.

``bot.watch.heartbeats`` writes them down now and then: writing each at once would make a
transaction a second of a program that has nothing to do.
"""

from datetime import datetime
from threading import Lock

START = "start"
"""The beat of a start of the program."""

_beats: dict[str, datetime] = {}
_unwritten: set[str] = set()
_lock = Lock()


def tick_name(tick: str) -> str:
    """Name the beat of a tick of the bell that went well."""
    return f"tick:{tick}"


def poll_name(channel: str) -> str:
    """Name the beat of a fetch that the carrier answered."""
    return f"poll:{channel}"


def running_name(channel: str) -> str:
    """Name the beat of a program that runs a channel, whether or not its carrier answers."""
    return f"running:{channel}"


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
