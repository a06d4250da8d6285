"""Brings a database to the newest form of its tables, whatever form it has now."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy import Connection, Engine, inspect, text

from scheduling.records.integrity import broken_references

MIGRATIONS = Path(__file__).parent / "migrations"

_ONE_AT_A_TIME = "SELECT pg_advisory_xact_lock(7262353)"


class NewerDatabaseError(Exception):
    """The database was made by a later release; this one would not understand it."""


class OlderDatabaseError(Exception):
    """The database is older than the baseline; the message says how to bring it over."""


class BrokenReferencesError(Exception):
    """After migrating, rows would point at rows that are not there; nothing was changed."""


def migrate(engine: Engine) -> None:
    """Bring the database to the newest version, all of it or nothing; quick when it is there.

    Raises:
        NewerDatabaseError: a later release of this program made it.
        OlderDatabaseError: it was made before the baseline.
        BrokenReferencesError: a row would point at nothing; the database is left as it was.
    """
    now = current_version(engine)
    if now == newest_version():
        return
    if now is not None and now not in _versions():
        raise _unknown(now)
    with without_foreign_keys(engine) as connection:
        upgrade(connection)
        check_references(connection)


def current_version(engine: Engine) -> str | None:
    """Read the version the database is of; None for one without tables."""
    with engine.connect() as connection:
        if not inspect(connection).has_table("alembic_version"):
            return None
        found = connection.scalar(text("SELECT version_num FROM alembic_version"))
        return None if found is None else str(found)


def newest_version() -> str:
    """Name the version this program works with: the last of the migrations by number."""
    return _versions()[-1]


def _versions() -> list[str]:
    return sorted(file.stem for file in (MIGRATIONS / "versions").glob("[0-9]*.py"))


def _unknown(version: str) -> NewerDatabaseError | OlderDatabaseError:
    # Versions begin with their number in four digits, so that they sort as they follow.
    if version < _versions()[0]:
        return OlderDatabaseError(
            f"the database is of version {version}, older than this program can read; "
            "start Yardbell 0.1.0 on it once, or export its log with the program that made it "
            "and import that here"
        )
    return NewerDatabaseError(f"the database is of version {version}, made by a later release")


@contextmanager
def without_foreign_keys(engine: Engine) -> Iterator[Connection]:
    """One transaction in which SQLite checks no references; end it with ``check_references``."""
    # A table made anew is dropped once; with foreign keys on, SQLite takes its children along.
    with engine.connect() as connection:
        _set_foreign_keys(connection, "OFF")
        try:
            with connection.begin():
                yield connection
        finally:
            _set_foreign_keys(connection, "ON")


def _set_foreign_keys(connection: Connection, switch: str) -> None:
    if connection.dialect.name == "sqlite":
        # SQLite ignores this switch inside a transaction, so it goes past SQLAlchemy's.
        cursor = connection.connection.cursor()
        cursor.execute(f"PRAGMA foreign_keys = {switch}")
        cursor.close()


def upgrade(connection: Connection) -> None:
    """Run all migrations that the database has not had, within the transaction."""
    from alembic import command
    from alembic.config import Config

    if connection.dialect.name == "postgresql":
        # However long another worker's migration takes.
        connection.execute(text("SET LOCAL lock_timeout = 0"))
        connection.execute(text(_ONE_AT_A_TIME))
    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS).replace("%", "%%"))
    config.attributes["connection"] = connection
    command.upgrade(config, "head")


def check_references(connection: Connection) -> None:
    """See that every row's parent is there.

    Raises:
        BrokenReferencesError: some are not.
    """
    broken = broken_references(connection)
    if broken:
        raise BrokenReferencesError(f"rows without their parent in: {', '.join(broken)}")
