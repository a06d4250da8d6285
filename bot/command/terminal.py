"""The terminal standing in for phones, and the chat command: lines typed go in, answers come out.

Who types is who they say, if the log knows the name; warnings are a line each, since a keeper has
no use for a traceback.
"""

import asyncio
import io
import logging
import sys
from collections.abc import Callable, Iterator
from contextlib import suppress
from datetime import date, datetime

import click
from sqlalchemy import Engine

from bot.channels import console
from bot.channels.console import ConsoleChannel
from bot.command.call import Call, InputError
from bot.command.machine_clock import Clock, own_zone
from bot.command.options import on_option, pass_call
from bot.command.screen import show
from bot.command.whose import everybody
from bot.conversation.message_handler import MessageHandler
from bot.delivery.intake import Intake
from bot.delivery.sender import deliver_all
from bot.jobs.mornings import queue_mornings
from bot.settings.founding import Founding
from bot.wording.crew import welcome
from scheduling.plain_text import storable
from scheduling.records.addresses import find_person
from scheduling.records.crew_records import CrewRecords
from scheduling.records.crews import tidy
from scheduling.records.engine import writing
from scheduling.wall_time import next_at


class OneLine(logging.Formatter):
    """A record and its error in one line."""

    def format(self, record: logging.LogRecord) -> str:
        """Give the message and, of an error, its kind and words."""
        said = f"yardbell: {record.getMessage()}"
        error = record.exc_info[1] if record.exc_info else None
        said = said if error is None else f"{said}: {type(error).__name__}: {_first(error)}"
        return storable(said)


def log_in_lines() -> None:
    """Write warnings to stderr in this form."""
    handler = logging.StreamHandler(sys.stderr)
    handler.setFormatter(OneLine())
    logging.basicConfig(level=logging.WARNING, handlers=[handler])
    # Whoever reads the terminal sees what is sent; one who closed it does not want to know.
    logging.getLogger("bot.delivery").setLevel(logging.ERROR)


def _first(error: BaseException) -> str:
    return str(error).strip().partition("\n")[0]


class Terminal:
    """The terminal standing in for the phones of everybody, or of one person (``only_to``)."""

    def __init__(
        self, engine: Engine, clock: Callable[[], datetime], only_to: str | None = None
    ) -> None:
        self._engine = engine
        self._clock = clock
        self._only_to = only_to
        self._intake = Intake(engine, MessageHandler(own_zone(), founding=Founding.ANYBODY))
        self._channels = {console.NAME: ConsoleChannel(show)}

    def say(self, name: str, text: str) -> None:
        """Hand in what a person typed, and print what is answered."""
        now = self._clock()
        self._intake.receive(console.typed(name, text, now), now)
        self.deliver()

    def morning(self) -> None:
        """Print the mornings that are due."""
        queue_mornings(self._engine, self._clock())
        self.deliver()

    def deliver(self) -> None:
        """Print what waits to be sent."""
        asyncio.run(deliver_all(self._engine, self._channels, self._clock, self._only_to))


def at_terminal() -> bool:
    """Whether somebody sits at the terminal and sees what is printed."""
    return sys.stdin.isatty() and sys.stdout.isatty()


def lines_typed(prompt: str) -> Iterator[str]:
    """The lines typed or piped in, to the end of input; empty ones are passed over."""
    for line in _typed(prompt) if at_terminal() else _piped(prompt):
        if line.strip():
            yield line.strip()


def _typed(prompt: str) -> Iterator[str]:
    with suppress(ImportError):
        import readline  # noqa: F401 - from here on input() knows the arrow keys
    while True:
        try:
            yield input(prompt)
        except EOFError:
            # The shell's own prompt shall not stand behind ours.
            show()
            return


def _piped(prompt: str) -> Iterator[str]:
    """Each line is shown behind the prompt, so that what is printed reads as the talk it was."""
    if isinstance(sys.stdin, io.TextIOWrapper):
        sys.stdin.reconfigure(errors="replace")
    for line in iter(sys.stdin.readline, ""):
        if line.strip():
            show(f"{prompt}{line.strip()}")
        yield line


def know_at_terminal(engine: Engine, name: str, now: datetime) -> bool:
    """Give a person known from elsewhere (an import, say) the terminal as an address.

    Somebody whose name nobody has, or two have, stays a newcomer, and False is returned.
    """
    with writing(engine) as session:
        if find_person(session, console.NAME, name) is not None:
            return True
        named = [p for p in everybody(session) if p.name.casefold() == name.casefold()]
        if len(named) != 1:
            return False
        person, records = named[0], CrewRecords(session, named[0].crew_id)
        records.add_address(person.id, console.NAME, name)
        if person.next_morning_at is None:
            following = next_at(now, person.morning, person.zone)
            records.update_person(person.id, next_morning_at=following)
    return True


@click.command("chat")
@click.option("--as", "name", metavar="NAME", required=True, help="Who is typing.")
@on_option
@pass_call
def chat_command(call: Call, name: str, on: date | None) -> None:
    """Talk to Yardbell as NAME, a line for each message; end with Ctrl-D.

    Somebody new types `begin`, or `join CODE` with a partner's code.
    """
    log_in_lines()
    who, clock = _tidy(name), Clock(on)
    engine = call.engine()
    known = know_at_terminal(engine, who, clock())
    if not known and at_terminal():
        show(f"{welcome(Founding.ANYBODY)}\n")
    terminal = Terminal(engine, clock, only_to=who)
    terminal.deliver()
    for line in lines_typed(f"{who} > "):
        terminal.say(who, line)


def _tidy(name: str) -> str:
    name.encode()  # a letter that is none is refused, not replaced
    try:
        return tidy(name)
    except ValueError:
        raise InputError("--as needs a name, as in: yardbell chat --as Ada") from None
