"""Putting a backup into a database of either kind."""

import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy import Connection, Engine, MetaData

from scheduling.records.backup import copy_file, is_backup, opened_backup, opened_to_look
from scheduling.records.copying import copy_rows, has_rows
from scheduling.records.migrate import check_references, migrate, upgrade, without_foreign_keys
from scheduling.records.soundness import damage


class UnusableBackupError(Exception):
    """The file is no backup, or a damaged one; nothing was changed."""


class NotEmptyError(Exception):
    """The database has rows in it, and nobody said that they may go."""


def restore(engine: Engine, file: Path, replace: bool = False) -> dict[str, int]:
    """Put a backup into a database, all of it or nothing; give the number of rows by table.

    A backup that an earlier release made is brought to this version on the way. ``replace``
    takes away what the database held.

    Raises:
        NewerDatabaseError: a later release made the backup.
        NotEmptyError: the database has rows in it, and ``replace`` was not said.
        OSError: the file cannot be read.
        UnusableBackupError: the file is no backup, or a damaged one.

    """
    with _newest_form(file) as backup, without_foreign_keys(engine) as target:
        if has_rows(target):
            if not replace:
                raise NotEmptyError("the database is not empty")
            _make_anew(target)
        with backup.connect() as source:
            copied = copy_rows(source, target)
        check_references(target)
    return copied


@contextmanager
def _newest_form(file: Path) -> Iterator[Engine]:
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


def _make_anew(target: Connection) -> None:
    # The log's own guard forbids emptying it, and rightly: a replaced database is another one.
    tables = MetaData()
    tables.reflect(target)
    tables.drop_all(target)
    upgrade(target)
