"""Errors that end a command, each in one line."""

import click

BAD_INPUT = 2
"""Exit code when what was typed or given cannot be used."""


class InputError(click.ClickException):
    """What was given cannot be used; the message is one line."""

    exit_code = BAD_INPUT


class DamagedError(InputError):
    """The database's file is damaged, so that not even its schema can be read."""


def one_line(message: str) -> str:
    """A message with its line breaks taken out, since scripts read a line an error."""
    return " ".join(message.split()) or "something went wrong"
