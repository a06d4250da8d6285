"""Lines as they are typed at the terminal or piped in."""

import io
import sys
from collections.abc import Iterator
from contextlib import suppress

import click


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
            click.echo()
            return


def _piped(prompt: str) -> Iterator[str]:
    """Each line is shown behind the prompt, so that what is printed reads as the talk it was."""
    if isinstance(sys.stdin, io.TextIOWrapper):
        sys.stdin.reconfigure(errors="replace")
    for line in iter(sys.stdin.readline, ""):
        if line.strip():
            click.echo(f"{prompt}{line.strip()}")
        yield line
