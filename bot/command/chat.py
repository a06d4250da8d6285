"""The chat command: talk to one's own yards at the terminal."""

import asyncio
import sys
from collections.abc import Callable, Iterator
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import click
from sqlalchemy import Engine
from tzlocal import get_localzone_name

from bot.bell.mornings import ring_mornings
from bot.channels import console
from bot.channels.console import ConsoleChannel
from bot.command.group import Call
from bot.command.known import know_at_terminal
from bot.command.options import on_option, pass_call
from bot.desk.desk import Desk
from bot.post.sender import deliver_all

_START = time(8)
"""The hour at which a chat on another day begins."""


def own_zone() -> str:
    """The time zone of this machine, as new crews start with it."""
    return get_localzone_name() or "UTC"


class Clock:
    """The present instant, or that of another day which goes on as this one does."""

    def __init__(self, on: date | None, at: time = _START, zone: str | None = None) -> None:
        self._ahead = timedelta(0)
        if on is not None:
            there = datetime.combine(on, at, tzinfo=ZoneInfo(zone or own_zone()))
            self._ahead = there.astimezone(UTC) - datetime.now(UTC)

    def __call__(self) -> datetime:
        """The instant, aware, in UTC."""
        return datetime.now(UTC) + self._ahead


class Terminal:
    """The terminal standing in for the phones of everybody, or of one person (``only_to``)."""

    def __init__(
        self, engine: Engine, clock: Callable[[], datetime], only_to: str | None = None
    ) -> None:
        self._engine = engine
        self._clock = clock
        self._only_to = only_to
        self._desk = Desk(engine, own_zone())
        self._channels = {console.NAME: ConsoleChannel(click.echo)}

    def say(self, name: str, text: str) -> None:
        """Hand in what a person typed, and print what is answered."""
        now = self._clock()
        self._desk.receive(console.typed(name, text, now), now)
        self.deliver()

    def ring(self) -> None:
        """Print the mornings that are due."""
        ring_mornings(self._engine, self._clock())
        self.deliver()

    def deliver(self) -> None:
        """Print what waits to be sent."""
        asyncio.run(deliver_all(self._engine, self._channels, self._clock, self._only_to))


@click.command("chat")
@click.option("--as", "name", metavar="NAME", required=True, help="Who is typing.")
@on_option
@pass_call
def chat_command(call: Call, name: str, on: date | None) -> None:
    """Talk to Yardbell as NAME, a line for each message; end with Ctrl-D.

    The first line of somebody new may be `begin`, or `join CODE` with a partner's code.
    """
    engine, clock = call.engine(), Clock(on)
    know_at_terminal(engine, name, clock())
    terminal = Terminal(engine, clock, only_to=name)
    for line in lines_typed(f"{name} > "):
        terminal.say(name, line)


def lines_typed(prompt: str) -> Iterator[str]:
    """The lines typed at the terminal, or piped in; empty ones are passed over."""
    at_terminal = sys.stdin.isatty()
    while True:
        if at_terminal:
            click.echo(prompt, nl=False)
        line = sys.stdin.readline()
        if not line:
            return
        if line.strip():
            if not at_terminal:
                click.echo(f"{prompt}{line.strip()}")
            yield line.strip()
