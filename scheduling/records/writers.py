"""Threads of one process write in the order in which they came."""

from collections import deque
from collections.abc import Iterator
from contextlib import contextmanager
from threading import Lock, get_ident
from weakref import WeakKeyDictionary

from sqlalchemy import Engine


class Writers:
    """A queue of threads; the first in it writes.

    SQLite has none of its own: who finds another one writing looks again after a while, and may
    come too late each time as long as others write without a pause.
    """

    def __init__(self) -> None:
        self._guard = Lock()
        self._queue: deque[Lock] = deque()
        self._writing: int | None = None

    @contextmanager
    def turn(self) -> Iterator[None]:
        """Wait until all who came before have written; then nobody else does until the end.

        Raises:
            RuntimeError: this thread has the turn, and would wait for itself.

        """
        if self._writing == get_ident():
            raise RuntimeError("a transaction that writes was begun within another one")
        mine = Lock()
        mine.acquire()
        with self._guard:
            self._queue.append(mine)
            must_wait = len(self._queue) > 1
        try:
            if must_wait:
                mine.acquire()
            self._writing = get_ident()
            yield
        finally:
            self._leave(mine)

    def _leave(self, mine: Lock) -> None:
        with self._guard:
            was_first = self._queue[0] is mine
            if was_first:
                self._writing = None
            self._queue.remove(mine)
            if was_first and self._queue:
                self._queue[0].release()


_OF_ENGINES: WeakKeyDictionary[Engine, Writers] = WeakKeyDictionary()
_ONE_ADDS = Lock()


def writers_of(engine: Engine) -> Writers:
    """The queue of those who write through an engine."""
    with _ONE_ADDS:
        return _OF_ENGINES.setdefault(engine, Writers())
