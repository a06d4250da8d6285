"""The command's root: where the database is, and errors in one line."""

import importlib
import sys
from dataclasses import dataclass
from typing import NoReturn

import click
from sqlalchemy import Engine
from sqlalchemy.exc import SQLAlchemyError

from bot.settings import Settings, SettingsError, load_settings

BAD_INPUT = 2
"""Exit code when what was typed or given cannot be used."""

_MODULES = {
    "timetable": "show",
    "morning": "show",
    "read": "show",
    "import": "files",
    "export": "files",
    "chat": "chat",
    "demo": "demo",
    "serve": "serve",
}


class InputError(click.ClickException):
    """What was given cannot be used; the message is one line."""

    exit_code = BAD_INPUT


@dataclass(frozen=True)
class Call:
    """What every command shares: the settings, with the database that was asked for."""

    settings: Settings

    def engine(self) -> Engine:
        """Open the database, brought to the newest schema."""
        from scheduling.records.engine import open_engine
        from scheduling.records.migrate import migrate

        engine = open_engine(self.settings.database)
        migrate(engine)
        return engine


class _Commands(click.Group):
    """Loads a command's module when it is called, since few calls need the bot's libraries."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - click's form
        return list(_MODULES)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        if cmd_name not in _MODULES:
            return None
        module = importlib.import_module(f"bot.command.{_MODULES[cmd_name]}")
        command = getattr(module, f"{cmd_name}_command")
        assert isinstance(command, click.Command)  # noqa: S101 - our own table above
        return command


@click.group(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.option("--database", metavar="URL", help="SQLAlchemy URL; else YARDBELL_DATABASE.")
@click.pass_context
def cli(ctx: click.Context, database: str | None) -> None:
    """Reminders for people who raise honey-bee queens in divided boxes.

    Try `yardbell demo`, or talk to your own yards with `yardbell chat --as NAME`.
    """
    settings = load_settings()
    ctx.obj = Call(settings.model_copy(update={"database": database}) if database else settings)


def main(arguments: list[str] | None = None) -> NoReturn:
    """Run the command; every error is one line on stderr."""
    try:
        sys.exit(cli.main(arguments, prog_name="yardbell", standalone_mode=False) or 0)
    except click.Abort:
        sys.exit(130)
    except click.ClickException as error:
        _fail(error.format_message())
    except (SettingsError, SQLAlchemyError) as error:
        _fail(str(error))
    except BrokenPipeError:
        sys.stderr.close()
        sys.exit(0)


def _fail(message: str) -> NoReturn:
    first, *_ = message.strip().splitlines() or ["something went wrong"]
    print(f"yardbell: {first}", file=sys.stderr)  # noqa: T201 - the command's own voice
    sys.exit(BAD_INPUT)
