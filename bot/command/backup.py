"""The backup command."""

from pathlib import Path

import click

import bot.all_tables  # noqa: F401 - all of them are copied
from bot.command.call import Call
from bot.command.errors import InputError
from bot.command.options import pass_call
from bot.command.whose import nobody_yet
from scheduling.records.backup_file import OtherFileError, back_up
from scheduling.records.copying import UnknownTablesError


@click.command("backup")
@click.argument("file", metavar="FILE", type=click.Path(path_type=Path, dir_okay=False))
@pass_call
def backup_command(call: Call, file: Path) -> None:
    """Write a consistent copy of the whole database to FILE, while the program may be running.

    FILE is a SQLite database; `yardbell restore` puts it into a database of either kind. An
    earlier backup is written over, any other file is not.
    """
    engine = call.engine_to_look()
    if engine is None:
        raise nobody_yet()
    try:
        back_up(engine, file)
    except (OtherFileError, UnknownTablesError) as error:
        raise InputError(f"{file}: {error}; nothing written") from None
    except OSError as error:
        raise InputError(f"{file} cannot be written: {error.strerror}") from None
    click.echo(f"backup written to {file} ({file.stat().st_size / 1000:.0f} kB)")
