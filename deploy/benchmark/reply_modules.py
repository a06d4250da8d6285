"""What one warm reply goes through: modules of the program that run, and statements of SQL."""

import asyncio
import sys
import threading
from collections import Counter
from collections.abc import Iterator, Set
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from tempfile import TemporaryDirectory
from types import FrameType
from typing import Any

from sqlalchemy import Engine, event

from bot.channels.channel import IncomingMessage
from bot.channels.console import ConsoleChannel
from bot.conversation.message_handler import MessageHandler
from bot.delivery.dispatcher import App, Dispatcher
from deploy.benchmark.many_crews import OWNER, small_crew
from deploy.standins.databases import make_tables
from scheduling.records.engine import open_engine

NOW = datetime(2027, 6, 9, 12, tzinfo=UTC)
REPLY = "4b eggs, 4c no eggs"
WARM_UP = 3
"""Replies before the one that is counted: whatever is loaded once is none of its way."""

_ROOMS = ("bot.", "scheduling.")


@dataclass(frozen=True)
class WayOfReply:
    """What ran between a message in and its answer sent.

    Attributes:
        modules: of ``bot`` and ``scheduling``, of which a function ran.
        statements: of SQL, in order; a transaction's begin and end are none.
    """

    modules: Set[str]
    statements: tuple[str, ...]


def way_of_reply(text: str = REPLY) -> WayOfReply:
    """Let a crew of three units reply a few times, and look on at the last."""
    with TemporaryDirectory() as folder:
        url = f"sqlite:///{Path(folder) / 'bees.sqlite'}"
        make_tables(url)
        engine = open_engine(url)
        small_crew(engine, NOW, "console", OWNER)
        dispatcher = _dispatcher(engine)
        for number in range(WARM_UP):
            asyncio.run(_answered(dispatcher, number, text))
        with _statements(engine) as statements, _modules() as modules:
            asyncio.run(_answered(dispatcher, WARM_UP, text))
        engine.dispose()
    return WayOfReply(modules, tuple(statements))


def _dispatcher(engine: Engine) -> Dispatcher:
    console = ConsoleChannel(show=lambda _text: None)
    app = App(engine, {"console": console}, clock=lambda: NOW)
    return Dispatcher(app, MessageHandler())


async def _answered(dispatcher: Dispatcher, number: int, text: str) -> None:
    await dispatcher.receive(IncomingMessage("console", OWNER, str(number), text, NOW, OWNER))
    # Its answer is sent by a task of its own.
    await asyncio.gather(*(asyncio.all_tasks() - {asyncio.current_task()}))


@contextmanager
def _statements(engine: Engine) -> Iterator[list[str]]:
    seen: list[str] = []

    def executed(_connection: Any, _cursor: Any, statement: str, *_: Any) -> None:
        if not statement.startswith(("BEGIN", "PRAGMA")):
            seen.append(statement)

    event.listen(engine, "before_cursor_execute", executed)
    try:
        yield seen
    finally:
        event.remove(engine, "before_cursor_execute", executed)


@contextmanager
def _modules() -> Iterator[set[str]]:
    seen: set[str] = set()

    def called(frame: FrameType, what: str, _argument: Any) -> None:
        name = frame.f_globals.get("__name__", "")
        if what == "call" and name.startswith(_ROOMS):
            seen.add(name)

    threading.setprofile(called)
    sys.setprofile(called)
    try:
        yield seen
    finally:
        sys.setprofile(None)
        threading.setprofile(None)


def modules_of_reply() -> None:
    """Measure and print."""
    way = way_of_reply()
    print(f"Modules that run from {REPLY!r} to its sent answer, warm, 3 units, on SQLite\n")
    rooms = Counter(".".join(module.split(".")[:2]) for module in way.modules)
    for room, number in sorted(rooms.items()):
        print(f"{room:<30} {number:>4}")
    print(f"{'in all':<30} {len(way.modules):>4}")
    print(f"{'statements of SQL':<30} {len(way.statements):>4}")
