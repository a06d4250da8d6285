"""A backup is a SQLite file of all there was at one moment; a database of either kind takes it."""

import os
import sqlite3
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path

from sqlalchemy import URL, Connection, Engine, MetaData

from scheduling.records.copying import copy_rows, has_rows
from scheduling.records.engine import open_engine, reading
from scheduling.records.integrity import damage, faults_of_crews
from scheduling.records.migrate import check_references, migrate, upgrade, without_foreign_keys
from scheduling.records.readable_values import unreadable_values

_FIRST_BYTES = b"SQLite format 3\0"


class OtherFileError(Exception):
    """The file that would be written over is not a backup."""


def back_up(engine: Engine, file: Path) -> None:
    """Write a backup while others may go on writing; the file is there whole, or as it was.

    Only an earlier backup is written over. The file can be read by its owner only.

    Raises:
        OtherFileError: the file is the database itself, or something else than a backup.
        OSError: the file cannot be written.
        UnknownTablesError: the database has a table that this program does not know.
    """
    _refuse_other(engine, file)
    handle, name = tempfile.mkstemp(prefix=f".{file.name}.", dir=file.parent)
    os.close(handle)
    written = Path(name)
    try:
        if engine.dialect.name == "sqlite":
            _copy_own_file(engine, written)
        else:
            _copy_tables(engine, written)
        written.replace(file)
    finally:
        written.unlink(missing_ok=True)


def opened_backup(file: Path) -> Engine:
    """Make the engine for a backup's file."""
    return open_engine(URL.create("sqlite", database=str(file)))


def copy_file(source: sqlite3.Connection, file: Path) -> None:
    """Copy a SQLite database, the writes that stand beside its file too, into one file.

    Raises:
        sqlite3.DatabaseError: it cannot be read.
    """
    target = sqlite3.connect(file)
    try:
        source.backup(target)
        # One file, with none beside it.
        target.execute("PRAGMA journal_mode = DELETE")
    finally:
        target.close()


def opened_to_look(file: Path) -> sqlite3.Connection:
    """Open a SQLite file without changing it."""
    return sqlite3.connect(f"{file.absolute().as_uri()}?mode=ro", uri=True)


def is_backup(file: Path) -> bool:
    """Tell whether a file is a SQLite database that this program made.

    Raises:
        OSError: the file cannot be read.
    """
    with file.open("rb") as start:
        if start.read(len(_FIRST_BYTES)) != _FIRST_BYTES:
            return False
    found = opened_to_look(file)
    try:
        named = "SELECT count(*) FROM sqlite_master WHERE name IN ('alembic_version', 'crew')"
        return bool(found.execute(named).fetchone() == (2,))
    except sqlite3.DatabaseError:
        return False
    finally:
        found.close()


def _refuse_other(engine: Engine, file: Path) -> None:
    if not file.exists():
        return
    own = engine.url.database if engine.dialect.name == "sqlite" else None
    if own and Path(own).exists() and file.samefile(own):
        raise OtherFileError("that is the database itself")
    if not file.is_file() or not is_backup(file):
        raise OtherFileError("that is something else than a backup")


def _copy_own_file(engine: Engine, written: Path) -> None:
    with engine.connect() as connection:
        source = connection.connection.driver_connection
        assert isinstance(source, sqlite3.Connection)  # noqa: S101 - the dialect is SQLite's
        copy_file(source, written)


def _copy_tables(engine: Engine, written: Path) -> None:
    target = opened_backup(written)
    try:
        migrate(target)
        one_moment = engine.execution_options(
            isolation_level="REPEATABLE READ", postgresql_readonly=True
        )
        with one_moment.connect() as source, target.begin() as copy:
            copy_rows(source, copy)
        with target.connect() as connection:
            connection.connection.cursor().execute("PRAGMA journal_mode = DELETE").close()
    finally:
        target.dispose()


class UnusableBackupError(Exception):
    """The file is no backup, or a damaged one; nothing was changed.

    Attributes:
        faults: what is wrong with it, each in a line, if there is more to say than the message.
    """

    def __init__(self, said: str, faults: Sequence[str] = ()) -> None:
        super().__init__(said)
        self.faults = tuple(faults)


class NotEmptyError(Exception):
    """The database has rows in it, and nobody said that they may go."""


def restore(engine: Engine, file: Path, now: datetime, *, replace: bool = False) -> dict[str, int]:
    """Put a backup into a database, all of it or nothing; give the number of rows by table.

    A backup that an earlier release made is brought to this version on the way, and every value
    of it is looked at before it is taken. ``now`` is aware; ``replace`` takes away what the
    database held.

    Raises:
        NewerDatabaseError: a later release made the backup.
        OlderDatabaseError: the backup was made before the baseline.
        NotEmptyError: the database has rows in it, and ``replace`` was not said.
        OSError: the file cannot be read.
        UnusableBackupError: the file is no backup, or a damaged one.
    """
    with _newest_form(file, now) as backup, without_foreign_keys(engine) as target:
        if has_rows(target):
            if not replace:
                raise NotEmptyError("the database is not empty")
            _make_anew(target)
        with backup.connect() as source:
            copied = copy_rows(source, target)
        check_references(target)
    return copied


@contextmanager
def _newest_form(file: Path, now: datetime) -> Iterator[Engine]:
    """A copy of a backup, brought to this version; the backup itself stays as it is."""
    if not is_backup(file):
        raise UnusableBackupError("that is no backup of this program")
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder) / "backup"
        _copy(file, copy)
        backup = opened_backup(copy)
        try:
            _refuse_damaged(backup)
            migrate(backup)
            _refuse_faulty(backup, now)
            yield backup
        finally:
            backup.dispose()


def _copy(file: Path, copy: Path) -> None:
    source = opened_to_look(file)
    try:
        copy_file(source, copy)
    except sqlite3.DatabaseError as error:
        raise UnusableBackupError(f"the backup cannot be read: {error}") from None
    finally:
        source.close()


def _refuse_damaged(backup: Engine) -> None:
    with backup.connect() as connection:
        found = damage(connection)
    if found:
        raise UnusableBackupError(f"the backup is damaged: {found[0]}")


def _refuse_faulty(backup: Engine, now: datetime) -> None:
    """Refuse what would be taken and then break the program: bad values, kinds, zones and days."""
    with backup.connect() as connection:
        faults = list(unreadable_values(connection))
    if not faults:
        with reading(backup) as session:
            faults = list(faults_of_crews(session, now))
    if faults:
        raise UnusableBackupError(f"the backup has {len(faults)} faults", faults)


def _make_anew(target: Connection) -> None:
    # The log's own guard forbids emptying it, and rightly: a replaced database is another one.
    tables = MetaData()
    tables.reflect(target)
    tables.drop_all(target)
    upgrade(target)
