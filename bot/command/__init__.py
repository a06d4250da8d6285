"""The ``yardbell`` command."""

from bot.command.group import main

__all__ = ["main"]
