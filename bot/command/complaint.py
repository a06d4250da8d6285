"""What is said of an error that no command foresaw; loaded only once there is one."""

from sqlalchemy.exc import DBAPIError, SQLAlchemyError

from bot.settings.error import SettingsError


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
