"""The door to the database: connections that neither lose an update nor wait in vain."""

import os
import stat
from collections import deque
from collections.abc import Iterator
from contextlib import contextmanager, nullcontext, suppress
from pathlib import Path
from sqlite3 import Connection as SqliteConnection
from threading import Lock, get_ident
from typing import Any
from weakref import WeakKeyDictionary

from sqlalchemy import URL, Connection, Dialect, Engine, create_engine, event, make_url
from sqlalchemy.engine.interfaces import DBAPIConnection, ExceptionContext
from sqlalchemy.exc import DatabaseError, DBAPIError, OperationalError
from sqlalchemy.exc import TimeoutError as NoConnectionInTime
from sqlalchemy.orm import Mapper, ORMExecuteState, Session
from sqlalchemy.pool import ConnectionPoolEntry

from scheduling.records.calendar_cache import share_cached
from scheduling.records.database_file import DatabaseFile
from scheduling.records.tables import EntryRow

_READING = "reading"

_READ_ONLY = "25006"
"""PostgreSQL, appendix A of its manual: read_only_sql_transaction."""

_SQLITE_SETTINGS = (
    "PRAGMA busy_timeout = 15000",
    "PRAGMA journal_mode = WAL",
    # What was kept is on the disk: a carrier is told to forget a message after that.
    "PRAGMA synchronous = FULL",
    "PRAGMA foreign_keys = ON",
    # Without it INSERT OR REPLACE would take a row away unseen by the trigger that forbids it.
    "PRAGMA recursive_triggers = ON",
)

_OWNER_ONLY = 0o600

_POSTGRESQL_SETTINGS = (
    "SET lock_timeout = '15s'",
    # A worker that hangs must not keep its crews from all others for ever.
    "SET idle_in_transaction_session_timeout = '5min'",
)


def database_url(written: str | URL) -> URL:
    """Read the address of a database; ``postgres://`` is what hosts and their pages call it.

    Raises:
        sqlalchemy.exc.ArgumentError: it is none.
    """
    url = make_url(written)
    return url.set(drivername="postgresql") if url.drivername == "postgres" else url


def open_engine(url: str | URL) -> Engine:
    """Make the engine for a SQLAlchemy database URL, such as ``sqlite:////home/me/bees.sqlite``.

    Nothing is opened until the first session. SQLite is set up so that many threads and processes
    may read while one writes; PostgreSQL so that nobody waits for a lock for ever, and that a
    server which was restarted is connected to anew.

    Raises:
        sqlalchemy.exc.ArgumentError: the text is not a database URL.
    """
    guard_log()
    url = database_url(url)
    served = url.get_backend_name() == "postgresql"
    # Its errors would repeat what people wrote, and end in a log.
    engine = create_engine(url, hide_parameters=True, pool_pre_ping=served, pool_use_lifo=True)
    if engine.dialect.name == "sqlite":
        file = engine.url.database
        if file and not file.startswith((":memory:", "file:")):
            known = DatabaseFile(file)
            event.listen(engine, "do_connect", known.refuse_other)
            event.listen(engine, "begin", known.refuse_other)
        event.listen(engine, "do_connect", _keep_to_owner)
        event.listen(engine, "connect", _set_up_sqlite)
        event.listen(engine, "begin", _begin_sqlite)
        event.listen(engine, "handle_error", _leave_what_cannot_write)
    elif served:
        event.listen(engine, "connect", _set_up_postgresql)
    return engine


class LogChangeError(Exception):
    """Somebody tried to change or take away an entry; a correction is a new entry."""


def _refuse(*_: Any) -> None:
    raise LogChangeError("an entry is never changed or deleted; add a strike instead")


def _refuse_in_bulk(state: ORMExecuteState) -> None:
    mapper: Mapper[Any] | None = state.bind_mapper
    changes = state.is_update or state.is_delete
    if changes and mapper is not None and mapper.class_ is EntryRow:
        _refuse()


def guard_log() -> None:
    """Make every session of this program refuse to change or delete an entry."""
    if event.contains(Session, "do_orm_execute", _refuse_in_bulk):
        return
    event.listen(Session, "do_orm_execute", _refuse_in_bulk)
    for change in ("before_update", "before_delete"):
        event.listen(EntryRow, change, _refuse)


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


@contextmanager
def writing(engine: Engine) -> Iterator[Session]:
    """One transaction that may write: kept when the block ends, undone when it raises.

    What it reads stays true until it writes: on SQLite always, because writers take turns (each
    waits until all of its own process that came before are done, and up to 15 seconds for other
    processes); on PostgreSQL for what it reads of a crew after ``hold_crew``.
    """
    alone = write_queue_of(engine).turn() if engine.dialect.name == "sqlite" else nullcontext()
    with alone, engine.begin() as connection, _session(connection) as session:
        yield session
    share_cached(session)


@contextmanager
def reading(engine: Engine) -> Iterator[Session]:
    """One consistent view of the database that holds nobody up; writing in it is an error."""
    quiet = engine.execution_options(reading=True)
    if engine.dialect.name == "postgresql":
        # Its usual level would let each statement see a later state.
        quiet = quiet.execution_options(isolation_level="REPEATABLE READ", postgresql_readonly=True)
    with quiet.begin() as connection, _session(connection) as session:
        yield session
    share_cached(session)


@contextmanager
def _session(connection: Connection) -> Iterator[Session]:
    """Work on a transaction that was begun, and whose end is for whoever began it."""
    # Using one after its end is an error, where it would else begin a transaction nobody ends.
    with Session(connection, expire_on_commit=False, close_resets_only=False) as session:
        yield session
        session.flush()


def is_fault_of_database(error: BaseException) -> bool:
    """Whether the database is itself at fault (full, read-only, gone) and not what was written."""
    if not isinstance(error, DBAPIError):
        return isinstance(error, NoConnectionInTime)
    lost = isinstance(error, OperationalError) or error.connection_invalidated
    # Of no further kind: SQLite's word for a file that is damaged, or is none of its own.
    return lost or type(error) is DatabaseError or _state_of(error) == _READ_ONLY


def fault_of_database(error: BaseException) -> str:
    """The database's own words when it is itself at fault (full, read-only, gone); else ""."""
    if not (isinstance(error, DBAPIError) and is_fault_of_database(error)):
        return ""
    return str(error.orig).strip().partition("\n")[0]


def _state_of(error: DBAPIError) -> str | None:
    """PostgreSQL's name of an error; SQLite has none."""
    return getattr(error.orig, "sqlstate", None)


def _leave_what_cannot_write(context: ExceptionContext) -> None:
    """Open the file anew: a connection that found it read-only stays so after it is not."""
    if "readonly database" in str(context.original_exception):
        context.is_disconnect = True


def _keep_to_owner(
    _dialect: Dialect, _record: ConnectionPoolEntry, place: tuple[Any, ...], _named: dict[str, Any]
) -> None:
    """Make a SQLite file, or one that was made before, readable by its owner only.

    SQLite gives the files beside it the same rights. A file that is there is never opened here:
    closing it would let go of every lock that this process has on it, and another process that
    ends would take the log of writes away from under it (SQLite, How To Corrupt, from memory).
    """
    file = Path(str(place[0]))
    if not file.is_absolute():
        return
    if not file.exists():
        with suppress(OSError):
            os.close(os.open(file, os.O_CREAT | os.O_EXCL | os.O_WRONLY, _OWNER_ONLY))
    with suppress(OSError):
        for each in (file, *(file.with_name(file.name + end) for end in ("-wal", "-shm"))):
            if each.exists() and stat.S_IMODE(each.stat().st_mode) & ~_OWNER_ONLY:
                each.chmod(_OWNER_ONLY)


def _set_up_sqlite(connection: SqliteConnection, _record: ConnectionPoolEntry) -> None:
    # The driver's own transactions begin too late, which lets a second writer's update get lost.
    connection.isolation_level = None
    for setting in _SQLITE_SETTINGS:
        connection.execute(setting).close()


def _set_up_postgresql(connection: DBAPIConnection, _record: ConnectionPoolEntry) -> None:
    cursor = connection.cursor()
    for setting in _POSTGRESQL_SETTINGS:
        cursor.execute(setting)
    cursor.close()
    connection.commit()


def _begin_sqlite(connection: Connection) -> None:
    reads_only = connection.get_execution_options().get(_READING, False)
    if connection.info.get(_READING, False) != reads_only:
        connection.exec_driver_sql(f"PRAGMA query_only = {'ON' if reads_only else 'OFF'}")
        connection.info[_READING] = reads_only
    connection.exec_driver_sql("BEGIN" if reads_only else "BEGIN IMMEDIATE")


def connection_of(session: Session) -> Connection:
    """Give the connection of a session's transaction.

    A reply asks for it a dozen times, and most replies need no more of the session than this.
    """
    bind = session.get_bind()
    return bind if isinstance(bind, Connection) else session.connection()
