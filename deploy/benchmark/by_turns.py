"""What one reply costs when replies come by turns from few crews and from many."""

import time
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path
from statistics import median, quantiles
from tempfile import TemporaryDirectory

from sqlalchemy import Engine

from bot.channels.channel import IncomingMessage
from bot.channels.traits import TELEGRAM
from bot.conversation.message_handler import MessageHandler
from bot.delivery.intake import Intake
from bot.gc_tuning import collect_rarely
from deploy.benchmark.copied_crews import fill_by_copying, river_findings
from deploy.standins.databases import make_tables
from scheduling.records.engine import open_engine

NOW = datetime(2027, 6, 9, 12, tzinfo=UTC)
CHAT = 10_000
UNITS, MANY_UNITS = 60, 300
COLD_CREWS = 12
"""Crews of 300 units of which each is measured once cold, and once again."""
REPLIES = 60
"""How many are measured at most of the first round, and of the next."""
WARM_UP = 5


@dataclass(frozen=True)
class Turns:
    """What replies by turns came to, in milliseconds of the processor.

    Attributes:
        crews: from how many crews they came.
        first_ms: a reply of a crew of which the process knows nothing.
        again_ms: a reply of a crew that was served one round before.
    """

    crews: int
    first_ms: Sequence[float]
    again_ms: Sequence[float]


def by_turns(crews: int, units: int, replies: int = REPLIES) -> Turns:
    """Let each of so many crews write once, and then some again in the same order."""
    with TemporaryDirectory() as folder:
        url = f"sqlite:///{Path(folder) / 'bees.sqlite'}"
        make_tables(url)
        engine = open_engine(url)
        fill_by_copying(engine, crews + 1, units, NOW, CHAT)
        collect_rarely()
        texts, numbers = river_findings(), count()

        def reply(chat: int) -> float:
            return _reply(engine, chat, next(texts), next(numbers))

        # Whatever is loaded or compiled once is none of the measured crews' cost.
        for _ in range(WARM_UP):
            reply(CHAT + crews)
        first = [reply(CHAT + number) for number in range(crews)]
        again = [reply(CHAT + number % crews) for number in range(replies)]
        engine.dispose()
    return Turns(crews, first[:replies], again)


def _reply(engine: Engine, chat: int, text: str, number: int) -> float:
    now = NOW + timedelta(seconds=number)
    message = IncomingMessage(TELEGRAM.name, str(chat), f"{chat}:{number}", text, now, "ida")
    began = time.process_time()
    Intake(engine, MessageHandler()).receive(message, now)
    return (time.process_time() - began) * 1e3


def replies_by_turns(*crews: int) -> None:
    """Measure and print."""
    print("A finding by turns from so many crews, milliseconds of the processor, on SQLite\n")
    print(
        f"{'crews':>6} {'units':>6} {'first half':>11} {'90 %':>6} {'again half':>11} {'90 %':>6}"
    )
    for number in crews:
        _print(by_turns(number, UNITS), UNITS)
    _print(by_turns(COLD_CREWS, MANY_UNITS, COLD_CREWS), MANY_UNITS)


def _print(found: Turns, units: int) -> None:
    row = f"{found.crews:>6} {units:>6}"
    for each in (found.first_ms, found.again_ms):
        row += f" {median(each):>11.1f} {_most(each):>6.1f}"
    print(row, flush=True)


def _most(each: Sequence[float]) -> float:
    """Give what 9 of 10 do not pass; of few, the most."""
    return quantiles(each, n=10)[8] if len(each) >= 10 else max(each)
