"""Opens the database a command works on, or says in a line why that cannot be.

Errors that no command foresaw are put in a line here too; all of it is loaded only when needed.
"""

from pathlib import Path

from sqlalchemy import URL, Engine, make_url
from sqlalchemy.exc import DBAPIError, SQLAlchemyError

from bot.command.call import DamagedError, InputError
from bot.settings.validators import SettingsError
from bot.weather.refresh import renew_days
from scheduling.records.engine import open_engine
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
        kind = DamagedError if "malformed" in database_said(error) else InputError
        raise kind(f"{_shown(url)} cannot be used: {database_said(error)}") from None
    return engine


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
        return make_url(address)
    except (SQLAlchemyError, ValueError):
        raise InputError(
            "that is not the address of a database; write it as sqlite:////home/me/bees.sqlite"
        ) from None


def _hint(url: URL) -> str:
    served = url.get_backend_name() == "postgresql"
    return "; run: pip install 'psycopg[binary]'" if served else ""


def _shown(url: URL) -> str:
    return f"the database {url.render_as_string(hide_password=True)}"
