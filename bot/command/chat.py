"""The chat command: talk to one's own yards at the terminal."""

from datetime import date

import click

from bot.command.call import Call, InputError
from bot.command.machine_clock import Clock
from bot.command.options import on_option, pass_call
from bot.command.terminal import Terminal, at_terminal, know_at_terminal, lines_typed, log_in_lines
from bot.wording.crew import welcome
from scheduling.records.crews import tidy


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
        click.echo(f"{welcome()}\n")
    terminal = Terminal(engine, clock, only_to=who)
    terminal.deliver()
    for line in lines_typed(f"{who} > "):
        terminal.say(who, line)


def _tidy(name: str) -> str:
    try:
        return tidy(name)
    except ValueError:
        raise InputError("--as needs a name, as in: yardbell chat --as Ada") from None
