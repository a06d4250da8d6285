"""Locks: a queue of the writers of one process, and advisory locks across workers.

An advisory lock is held by one worker at a time, within a transaction or for as long as the worker
lives. On SQLite every writer takes turns with all others, so there is nothing to do.
"""

from collections import deque
from collections.abc import Iterator
from contextlib import contextmanager
from threading import Lock, get_ident
from types import TracebackType
from typing import Self
from weakref import WeakKeyDictionary

from sqlalchemy import BigInteger, ColumnElement, Connection, Engine, func, select
from sqlalchemy.exc import DBAPIError
from sqlalchemy.orm import Session


class WriteQueue:
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


_OF_ENGINES: WeakKeyDictionary[Engine, WriteQueue] = WeakKeyDictionary()
_ONE_ADDS = Lock()


def write_queue_of(engine: Engine) -> WriteQueue:
    """The queue of those who write through an engine."""
    with _ONE_ADDS:
        return _OF_ENGINES.setdefault(engine, WriteQueue())


def hold_lock(session: Session, name: str) -> None:
    """Wait for the advisory lock of this name, and hold it until the transaction ends."""
    if session.get_bind().dialect.name == "postgresql":
        session.execute(select(func.pg_advisory_xact_lock(_number(name))))


def try_lock(session: Session, name: str) -> bool:
    """Hold the advisory lock of this name until the transaction ends, unless somebody else does."""
    if session.get_bind().dialect.name != "postgresql":
        return True
    return bool(session.scalar(select(func.pg_try_advisory_xact_lock(_number(name)))))


class LastingLock:
    """An advisory lock held over many transactions; it is lost when its connection breaks.

    Args:
        engine: the database that all workers share.
        name: what only one of them may do.
    """

    def __init__(self, engine: Engine, name: str) -> None:
        self._engine = engine
        self._name = name
        self._connection: Connection | None = None

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.give_back()

    def take(self) -> bool:
        """Take the lock if nobody else has it."""
        if self._engine.dialect.name != "postgresql":
            return True
        connection = self._engine.connect().execution_options(isolation_level="AUTOCOMMIT")
        if connection.scalar(select(func.pg_try_advisory_lock(_number(self._name)))):
            self._connection = connection
            return True
        connection.close()
        return False

    def is_held(self) -> bool:
        """Tell whether the lock, once taken, is still ours."""
        if self._connection is None:
            return self._engine.dialect.name != "postgresql"
        try:
            self._connection.execute(select(1))
        except DBAPIError:
            return False
        return True

    def give_back(self) -> None:
        """Let others have the lock."""
        if self._connection is not None:
            # The server ends a lock with its connection, which must not go back to the pool.
            self._connection.invalidate()
            self._connection.close()
            self._connection = None


def _number(name: str) -> ColumnElement[int]:
    return func.hashtextextended(name, 0, type_=BigInteger)
