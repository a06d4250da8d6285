"""What a process remembers of the crews it served last; forgetting it loses nothing.

Whoever recalls something holds it against the database before using it: another worker may have
written since, or a backup may have been put in its place.
"""

from collections import OrderedDict
from threading import Lock
from typing import Any, TypeVar
from weakref import WeakKeyDictionary

from sqlalchemy import Pool
from sqlalchemy.orm import Session

CREWS = 32
"""Of how many crews something is remembered; a crew of 300 units takes a few megabytes."""

_STAGED = "remembered"

Thing = TypeVar("Thing")
_OfCrew = dict[type, object]


class Memory:
    """Things by crew and type; the crews that were served longest ago are forgotten first."""

    def __init__(self, crews: int = CREWS) -> None:
        self._most = crews
        self._by_crew: OrderedDict[int, _OfCrew] = OrderedDict()
        self._one = Lock()

    def recall(self, crew_id: int, kind: type[Thing]) -> Thing | None:
        """Give what was last remembered of this type, if it still is."""
        with self._one:
            found = self._by_crew.get(crew_id, {}).get(kind)
        return found if isinstance(found, kind) else None

    def remember(self, crew_id: int, things: _OfCrew) -> None:
        """Remember things of a crew in place of older ones of the same types."""
        with self._one:
            self._by_crew.setdefault(crew_id, {}).update(things)
            self._by_crew.move_to_end(crew_id)
            while len(self._by_crew) > self._most:
                self._by_crew.popitem(last=False)


_memories: WeakKeyDictionary[Pool, Memory] = WeakKeyDictionary()
"""The memory of each database that this process has open."""


def read_before(session: Session, crew_id: int, kind: type[Thing]) -> Thing | None:
    """Give what this very transaction remembered of a crew, which it has read or written."""
    found = session.info.get(_STAGED, {}).get(crew_id, {}).get(kind)
    return found if isinstance(found, kind) else None


def recall(session: Session, crew_id: int, kind: type[Thing]) -> Thing | None:
    """Give what is remembered of a crew, first of all from this transaction."""
    staged = read_before(session, crew_id, kind)
    if staged is not None:
        return staged
    memory = _memories.get(_pool(session))
    return None if memory is None else memory.recall(crew_id, kind)


def remember(session: Session, crew_id: int, thing: object) -> None:
    """Remember a thing of a crew, for others only once the transaction is kept."""
    staged: dict[int, Any] = session.info.setdefault(_STAGED, {})
    staged.setdefault(crew_id, {})[type(thing)] = thing


def share_remembered(session: Session) -> None:
    """Let later transactions recall what a transaction remembered that was kept."""
    staged = session.info.pop(_STAGED, {})
    if staged:
        memory = _memories.setdefault(_pool(session), Memory())
        for crew_id, things in staged.items():
            memory.remember(crew_id, things)


def _pool(session: Session) -> Pool:
    return session.get_bind().engine.pool
