"""The door to the database: connections that neither lose an update nor wait in vain."""

from collections.abc import Iterator
from contextlib import contextmanager
from sqlite3 import Connection as SqliteConnection

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.orm import Session
from sqlalchemy.pool import ConnectionPoolEntry

from scheduling.records.append_only import guard_log

_READING = "reading"

_SQLITE_SETTINGS = (
    "PRAGMA busy_timeout = 15000",
    "PRAGMA journal_mode = WAL",
    "PRAGMA synchronous = NORMAL",
    "PRAGMA foreign_keys = ON",
    # Without it INSERT OR REPLACE would take a row away unseen by the trigger that forbids it.
    "PRAGMA recursive_triggers = ON",
)


def open_engine(url: str) -> Engine:
    """Make the engine for a SQLAlchemy database URL, such as ``sqlite:////home/me/bees.sqlite``.

    Nothing is opened until the first session. SQLite is set up so that many threads and processes
    may read while one writes; any other database is taken as it is.

    Raises:
        sqlalchemy.exc.ArgumentError: the text is not a database URL.

    """
    guard_log()
    # Its errors would repeat what people wrote, and end in a log.
    engine = create_engine(url, hide_parameters=True)
    if engine.dialect.name == "sqlite":
        event.listen(engine, "connect", _set_up_sqlite)
        event.listen(engine, "begin", _begin_sqlite)
    return engine


@contextmanager
def writing(engine: Engine) -> Iterator[Session]:
    """One transaction that may write: kept when the block ends, undone when it raises.

    On SQLite it waits up to 15 seconds for its turn, so what it reads stays true until it writes.
    """
    with Session(engine, expire_on_commit=False) as session, session.begin():
        yield session


@contextmanager
def reading(engine: Engine) -> Iterator[Session]:
    """One consistent view of the database that holds nobody up; writing in it is an error."""
    quiet = engine.execution_options(reading=True, postgresql_readonly=True)
    with Session(quiet, expire_on_commit=False) as session, session.begin():
        yield session


def _set_up_sqlite(connection: SqliteConnection, _record: ConnectionPoolEntry) -> None:
    # The driver's own transactions begin too late, which lets a second writer's update get lost.
    connection.isolation_level = None
    for setting in _SQLITE_SETTINGS:
        connection.execute(setting).close()


def _begin_sqlite(connection: Connection) -> None:
    reads_only = connection.get_execution_options().get(_READING, False)
    connection.exec_driver_sql(f"PRAGMA query_only = {'ON' if reads_only else 'OFF'}")
    connection.exec_driver_sql("BEGIN" if reads_only else "BEGIN IMMEDIATE")
