"""The commands backup and restore."""

from collections.abc import Mapping
from datetime import UTC, date, datetime
from pathlib import Path

import click
from sqlalchemy.exc import DatabaseError

import bot.all_tables  # noqa: F401 - all of them are copied  # noqa: F401 - all of them are copied
from bot.command.backup_folder import file_of, thin
from bot.command.call import Call, InputError, one_line
from bot.command.options import pass_call
from bot.command.screen import show
from bot.command.whose import nobody_yet
from scheduling.records.backup_file import (
    NotEmptyError,
    OtherFileError,
    UnusableBackupError,
    back_up,
    restore,
)
from scheduling.records.copying import UnknownTablesError
from scheduling.records.migrate import BrokenReferencesError, NewerDatabaseError, OlderDatabaseError


@click.command("backup")
@click.argument("file", metavar="FILE", type=click.Path(path_type=Path))
@click.option("--thin", "thinned", is_flag=True, help="Take old backups of the folder away.")
@pass_call
def backup_command(call: Call, file: Path, thinned: bool) -> None:
    """Write a consistent copy of the whole database to FILE, while the program may be running.

    FILE is a SQLite database; `yardbell restore` puts it into a database of either kind. An
    earlier backup is written over, any other file is not. In a folder, it is named by the day;
    with --thin of older ones those of 7 days, 5 weeks and 12 months are kept.
    """
    folder = file if file.is_dir() else None
    if thinned and folder is None:
        raise InputError(f"{file} is no folder, and only in one old backups are taken away")
    _write(call, file if folder is None else file_of(folder, date.today()))  # noqa: DTZ011
    if folder is not None and thinned:
        click.echo(f"old backups taken away: {len(thin(folder))}")


def _write(call: Call, file: Path) -> None:
    engine = call.engine_to_look()
    if engine is None:
        raise nobody_yet(call)
    try:
        back_up(engine, file)
    except (OtherFileError, UnknownTablesError) as error:
        raise InputError(f"{file}: {error}; nothing written") from None
    except OSError as error:
        raise InputError(f"{file} cannot be written: {error.strerror}") from None
    show(f"backup written to {file} ({file.stat().st_size / 1000:.0f} kB)")


_UNUSABLE = (
    UnusableBackupError,
    UnknownTablesError,
    NewerDatabaseError,
    OlderDatabaseError,
    BrokenReferencesError,
)

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
        restored = restore(engine, file, datetime.now(UTC), replace=replace)
    except NotEmptyError as error:
        raise InputError(
            f"{error}; nothing restored (--replace takes away what is in it)"
        ) from None
    except (*_UNUSABLE, DatabaseError) as error:
        for fault in error.faults if isinstance(error, UnusableBackupError) else ():
            show(one_line(fault), err=True)
        said = error.orig if isinstance(error, DatabaseError) else error
        raise InputError(f"{file}: {said}; nothing restored") from None
    except OSError as error:
        raise InputError(f"{file} cannot be read: {error.strerror}") from None
    show(_report(restored))


def _report(restored: Mapping[str, int]) -> str:
    counted = [f"{restored[table]} {words}" for table, words in _NAMED.items()]
    return f"restored: {', '.join(counted)}"
