"""What every command shares: the settings, the database asked for, and errors in one line each."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sqlalchemy import Engine

    from bot.settings.settings import Settings
import click

BAD_INPUT = 2
"""Exit code when what was typed or given cannot be used."""


class InputError(click.ClickException):
    """What was given cannot be used; the message is one line."""

    exit_code = BAD_INPUT


class AwayError(InputError):
    """The database's server does not answer; to start again later may help."""

    exit_code = 75
    """What sysexits(3) calls a passing failure; a service manager starts the program again."""


class DamagedError(InputError):
    """The database's file is damaged, so that not even its schema can be read."""


def one_line(message: str) -> str:
    """A message with its line breaks taken out, since scripts read a line an error."""
    return " ".join(message.split()) or "something went wrong"


class Call:
    """One call of the command; settings are read and the database opened only when needed."""

    def __init__(self, database: str | None = None) -> None:
        self._database = database
        self._engine: Engine | None = None

    def name_database(self, url: str) -> None:
        """Use this database; to be said before the settings are first read."""
        self._database = url

    @cached_property
    def settings(self) -> Settings:
        """The settings; a database named in the call goes before that of the environment."""
        from bot.settings.load import load_settings

        settings = load_settings()
        return (
            settings.model_copy(update={"database": self._database}) if self._database else settings
        )

    def engine(self) -> Engine:
        """The database, made if it is not there, and brought to the newest schema."""
        from bot.command.database import open_database

        self._engine = open_database(self.settings.database_url)
        return self._engine

    def engine_to_look(self) -> Engine | None:
        """The database, or None if it is not there yet: looking makes no file."""
        from bot.command.database import is_missing

        return None if is_missing(self.settings.database_url) else self.engine()

    def close(self) -> None:
        """Let go of the database, which leaves nothing beside its file."""
        if self._engine is not None:
            self._engine.dispose()
