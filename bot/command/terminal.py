"""The terminal standing in for phones: lines typed go in, answers are printed."""

import asyncio
from collections.abc import Callable
from datetime import datetime

import click
from sqlalchemy import Engine

from bot.bell.mornings import ring_mornings
from bot.channels import console
from bot.channels.console import ConsoleChannel
from bot.command.clock import own_zone
from bot.desk.desk import Desk
from bot.post.sender import deliver_all


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
