"""Advisory locks across workers.

One is held by one worker at a time, within a transaction or for as long as the worker
lives. On SQLite every writer takes turns with all others, so there is nothing to do.
"""

from types import TracebackType
from typing import Self

from sqlalchemy import BigInteger, ColumnElement, Connection, Engine, func, select
from sqlalchemy.exc import DBAPIError
from sqlalchemy.orm import Session


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
