"""The command's root: it finds the command that was typed, and says errors in one line."""

import hashlib
import importlib
import sys
import traceback
from pathlib import Path
from typing import NamedTuple, NoReturn

import click

from bot.command.call import BAD_INPUT, Call, InputError, one_line
from bot.command.screen import show

LOCK = "deploy/requirements.lock"
STAMP = "yardbell.stamp"
UNFINISHED = "unfinished"


def refuse_other_packages(environment: Path) -> None:
    """Go on only in an environment that was filled from the lock as it is now.

    One that ``deploy/start.py`` did not make has no stamp, and is not looked into.

    Raises:
        InputError: it was filled from another lock, or not to the end.
    """
    try:
        stamp = (environment / STAMP).read_text("utf-8")
        lock = (environment.parent / LOCK).read_bytes()
    except OSError:
        return
    changed = LOCK in stamp and hashlib.sha256(lock).hexdigest() not in stamp
    if changed or stamp == UNFINISHED:
        start = environment.parent / "deploy" / "start.py"
        raise InputError(
            f"{environment} does not hold the packages of {LOCK}; run: python3 {start} help"
        )


class _Listed(NamedTuple):
    """A command as the help lists it: the module it is in, and what it does."""

    module: str
    short_help: str


COMMANDS = {
    "demo": _Listed("demo", "An invented morning, to try and to talk to."),
    "chat": _Listed("terminal", "Talk to your own yards at this terminal."),
    "morning": _Listed("morning", "Show a person's morning message; nothing is sent or changed."),
    "timetable": _Listed("timetable", "What follows from one start event, and when."),
    "read": _Listed("read", "Show how a message would be understood; nothing is changed."),
    "import": _Listed("files", "Add the entries of a CSV file to the log."),
    "export": _Listed("files", "Write the whole log to a CSV file."),
    "serve": _Listed("serve", "Run every configured channel until told to stop."),
    "invite-crew": _Listed("invite_crew", "Make a code with which somebody founds a crew."),
    "backup": _Listed("backups", "Write all there is into one file."),
    "restore": _Listed("backups", "Put a backup into an empty database."),
    "tell-operator": _Listed("tell_operator", "Send a word to whoever runs the machine."),
    "check": _Listed("check_database", "See whether the records are whole."),
    "crews": _Listed("crews_listed", "List the crews, each with its number."),
    "crew": _Listed("crew_by_number", "Show one crew; give out, forget or delete what is in it."),
    "status": _Listed("status", "Show how the running program stands."),
}

OWN_FAULT = 1
"""Exit code when the program itself is at fault."""

_INTERRUPTED = 130
"""Exit code after Ctrl-C, as shells give it."""


class _Commands(click.Group):
    """Loads a command's module when it is called, since few calls need the bot's libraries."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - click's form
        return list(COMMANDS)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002
        """List every command without loading any."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, told.short_help) for name, told in COMMANDS.items()])

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        if cmd_name not in COMMANDS:
            return None
        refuse_other_packages(Path(sys.prefix))
        module = importlib.import_module(f"bot.command.{COMMANDS[cmd_name].module}")
        command = getattr(module, f"{cmd_name.replace('-', '_')}_command")
        assert isinstance(command, click.Command)  # noqa: S101 - our own table above
        return _with_database(command)


def _with_database(command: click.Command) -> click.Command:
    """Let the database be named behind the command's own name as well as before it."""
    if all(option.name != "database" for option in command.params):
        command.params.append(
            click.Option(
                ["--database"],
                metavar="URL",
                expose_value=False,
                callback=_name_database,
                help="SQLAlchemy URL; else YARDBELL_DATABASE.",
            )
        )
    return command


def _name_database(ctx: click.Context, _option: click.Parameter, url: str | None) -> None:
    if url is not None:
        ctx.ensure_object(Call).name_database(url)


@click.group(
    cls=_Commands,
    invoke_without_command=True,
    context_settings={"help_option_names": ["-h", "--help"]},
)
@click.option("--database", metavar="URL", help="SQLAlchemy URL; else YARDBELL_DATABASE.")
@click.version_option(package_name="yardbell", message="%(prog)s %(version)s")
@click.pass_context
def cli(ctx: click.Context, database: str | None) -> None:
    """Reminders for people who raise honey-bee queens in divided boxes.

    Try `yardbell demo`, or talk to your own yards with `yardbell chat --as NAME`.
    """
    ctx.obj = Call(database)
    ctx.call_on_close(ctx.obj.close)
    if ctx.invoked_subcommand is None:
        click.echo(ctx.get_help())


def main(arguments: list[str] | None = None) -> NoReturn:
    """Run the command; every error is one line on stderr."""
    try:
        sys.exit(cli.main(arguments, prog_name="yardbell", standalone_mode=False) or 0)
    except (click.Abort, KeyboardInterrupt):
        sys.exit(_INTERRUPTED)
    except InputError as error:
        _fail(error.format_message(), error.exit_code)
    except click.ClickException as error:
        _fail(error.format_message())
    except Exception as error:  # noqa: BLE001 - whatever it was, it is told in a line
        from bot.command.database import complaint

        said = complaint(error)
        if said is None:
            _fail(_own_fault(error), OWN_FAULT)
        _fail(said)


def _own_fault(error: Exception) -> str:
    """Say where the program itself went wrong; its words may repeat what somebody wrote."""
    *_, last = traceback.extract_tb(error.__traceback__)
    where = f"{Path(last.filename).name}:{last.lineno}"
    return f"a fault of the program itself, please report it: {type(error).__name__} at {where}"


def _fail(message: str, code: int = BAD_INPUT) -> NoReturn:
    show(f"yardbell: {one_line(message)}", err=True)
    sys.exit(code)
