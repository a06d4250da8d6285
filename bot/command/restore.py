"""The restore command."""

from collections.abc import Mapping
from pathlib import Path

import click
from sqlalchemy.exc import DatabaseError

import bot.all_tables  # noqa: F401 - all of them are copied
from bot.command.call import Call
from bot.command.errors import InputError
from bot.command.options import pass_call
from scheduling.records.backup_file import NotEmptyError, UnusableBackupError, restore
from scheduling.records.copying import UnknownTablesError
from scheduling.records.migrate import BrokenReferencesError, NewerDatabaseError

_UNUSABLE = (UnusableBackupError, UnknownTablesError, NewerDatabaseError, BrokenReferencesError)

_NAMED = {
    "crew": "crews",
    "person": "people",
    "yard": "yards",
    "unit": "units",
    "entry": "entries",
    "outbox": "messages out",
}


@click.command("restore")
@click.argument("file", metavar="FILE", type=click.Path(path_type=Path, dir_okay=False))
@click.option("--replace", is_flag=True, help="Take away what the database holds now.")
@pass_call
def restore_command(call: Call, file: Path, replace: bool) -> None:
    """Put the backup FILE into the database, all of it or nothing.

    The database must be empty, unless --replace is given. Stop `yardbell serve` before.
    """
    engine = call.engine()
    try:
        restored = restore(engine, file, replace)
    except NotEmptyError as error:
        raise InputError(
            f"{error}; nothing restored (--replace takes away what is in it)"
        ) from None
    except (*_UNUSABLE, DatabaseError) as error:
        said = error.orig if isinstance(error, DatabaseError) else error
        raise InputError(f"{file}: {said}; nothing restored") from None
    except OSError as error:
        raise InputError(f"{file} cannot be read: {error.strerror}") from None
    click.echo(_report(restored))


def _report(restored: Mapping[str, int]) -> str:
    counted = [f"{restored[table]} {words}" for table, words in _NAMED.items()]
    return f"restored: {', '.join(counted)}"
