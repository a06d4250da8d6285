"""Opens the database a command works on, or says in a line why that cannot be.

Errors that no command foresaw are put in a line here too; all of it is loaded only when needed.
"""

import sys
from pathlib import Path

from sqlalchemy import URL, Engine
from sqlalchemy.exc import DBAPIError, OperationalError, SQLAlchemyError

from bot.command.call import AwayError, DamagedError, InputError
from bot.settings.validators import SettingsError
from bot.weather.refresh import renew_days
from scheduling.records.engine import database_url, open_engine
from scheduling.records.migrate import (
    BrokenReferencesError,
    NewerDatabaseError,
    OlderDatabaseError,
    migrate,
)

_UNUSABLE = (SQLAlchemyError, NewerDatabaseError, OlderDatabaseError, BrokenReferencesError)


def complaint(error: Exception) -> str | None:
    """Say in a line what the owner of the machine may mend; None for a fault of our own."""
    if isinstance(error, SettingsError):
        return str(error)
    if isinstance(error, SQLAlchemyError):
        return f"the database: {database_said(error)}"
    if isinstance(error, UnicodeError):
        return "a letter cannot be read or shown; give text as UTF-8"
    if isinstance(error, OSError):
        return f"{error.filename or 'the system'}: {error.strerror or error}"
    return None


def database_said(error: Exception) -> str:
    """The database's own words on an error, without our statement."""
    said = str(error.orig) if isinstance(error, DBAPIError) else str(error)
    return said.strip().partition("\n")[0]


def open_database(address: str) -> Engine:
    """The database at a SQLAlchemy URL, brought to the newest schema.

    Raises:
        AwayError: the server does not answer.
        DamagedError: SQLite finds its file damaged.
        InputError: it cannot be used; its password is never repeated.
    """
    url = _url(address)
    try:
        engine = open_engine(address)
        migrate(engine)
        renew_days(engine)
    except ImportError as error:
        raise InputError(
            f"the driver for {_shown(url)} is not installed: {error}{_hint(url)}"
        ) from None
    except _UNUSABLE as error:
        raise _kind_of(error, url)(
            f"{_shown(url)} cannot be used: {database_said(error)}"
        ) from None
    return engine


def _kind_of(error: Exception, url: URL) -> type[InputError]:
    if "malformed" in database_said(error):
        return DamagedError
    away = isinstance(error, OperationalError) and url.get_backend_name() == "postgresql"
    return AwayError if away else InputError


def is_missing(address: str) -> bool:
    """Whether the URL names a SQLite file that is not there yet.

    Raises:
        InputError: it is not a URL of a database.
    """
    url = _url(address)
    file = url.database or ""
    if url.get_backend_name() != "sqlite" or url.host or file.startswith(("file:", ":memory:")):
        return False
    return bool(file) and Path(file).parent.is_dir() and not Path(file).exists()


def _url(address: str) -> URL:
    try:
        return database_url(address)
    except (SQLAlchemyError, ValueError):
        raise InputError(
            "that is not the address of a database; write it as sqlite:////home/me/bees.sqlite"
        ) from None


def _hint(url: URL) -> str:
    if url.get_backend_name() != "postgresql":
        return ""
    start = Path(sys.prefix).parent / "deploy" / "start.py"
    # Without a checkout, whoever installed it knows by what.
    by = f"python3 {start} postgresql" if start.exists() else "pip install 'psycopg[binary]'"
    return f"; run: {by}"


def _shown(url: URL) -> str:
    return f"the database {shown_address(url)}"


def shown_address(url: URL | str) -> str:
    """The address of a database as it may be shown: without its password."""
    return database_url(url).render_as_string(hide_password=True)
