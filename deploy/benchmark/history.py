"""What a long history costs: start-up, "due" and the metrics, after no message and after many."""

import shutil
import time
import urllib.request
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from typing import Any

from sqlalchemy import Connection, insert

from bot.channels.reports import Delivery
from bot.channels.traits import SMS, TELEGRAM
from bot.delivery.message_tables import DeliveryRow, InboxRow, KnownRow, OutboxRow
from bot.delivery.pruning import KEPT, prune
from bot.delivery.rules import OutboxState, Purpose, SendQueue
from deploy.benchmark.copied_crews import gather_statistics
from deploy.benchmark.many_crews import fill
from deploy.benchmark.running_bot import CHAT, Bot, our_settings, ours, running
from deploy.standins.bot_api_standin import running_standin
from deploy.standins.databases import make_tables
from deploy.standins.free_port import free_port
from scheduling.records.engine import open_engine
from scheduling.records.tables import Base, table_of

STARTS = 3
ASKED = 10
"""How often each start is asked what is due, and for its metrics."""
AT_ONCE = 10_000
TEXT = "Open today in River: 4a-c 6b, laying check."

Row = Mapping[str, Any]


@dataclass(frozen=True)
class Start:
    """What one start came to.

    Attributes:
        polled_s: seconds from the start to the first poll.
        first_due_ms: until the first "due" was answered.
        due_ms: until each later one was.
        metrics_ms: until each request for the metrics was answered.
        mib: memory at the end, the proportional share.
    """

    polled_s: float
    first_due_ms: float
    due_ms: list[float]
    metrics_ms: list[float]
    mib: float


def with_history(database: Path, messages: int, now: datetime) -> None:
    """Make a database of one crew in its season, to and from which so many messages have gone.

    They are spread over as long as they are kept; every second one went by text, with its report.
    """
    make_tables(url := f"sqlite:///{database}")
    engine = open_engine(url)
    fill(engine, 1, now, TELEGRAM.name, CHAT)
    with engine.begin() as connection:
        for first in range(0, messages, AT_ONCE):
            numbers = range(first, min(first + AT_ONCE, messages))
            moments = [(n, now - KEPT * (1 - (n + 1) / (messages + 1))) for n in numbers]
            _insert(connection, OutboxRow, [_sent(n, at) for n, at in moments])
            _insert(connection, DeliveryRow, [_reported(n, at) for n, at in moments if n % 2])
            _insert(connection, KnownRow, [_known(n) for n, _ in moments if n % 2])
            # Those of two days are kept whole.
            late = [(n, at) for n, at in moments if at > now - timedelta(days=2)]
            _insert(connection, InboxRow, [_received(n, at) for n, at in late])
    gather_statistics(engine)
    engine.dispose()


def _insert(connection: Connection, kind: type[Base], rows: list[Row]) -> None:
    if rows:
        connection.execute(insert(table_of(kind)), rows)


def _channel(number: int) -> str:
    return SMS.name if number % 2 else TELEGRAM.name


def _sent(number: int, at: datetime) -> Row:
    return {
        "key": f"history:{number}",
        "purpose": Purpose.MORNING,
        "channel": _channel(number),
        "address": str(number),
        "text": TEXT,
        "buttons": [],
        "queue": SendQueue.REMINDERS,
        "state": OutboxState.SENT,
        "attempts": 1,
        "doubts": 0,
        "parts_sent": 0,
        "planned_at": at,
        "next_try_at": at,
        "ended_at": at,
        "about": at.date(),
        "carrier_id": f"id{number}",
        "carrier_said": "",
    }


def _reported(number: int, at: datetime) -> Row:
    told = {"channel": SMS.name, "carrier_id": f"id{number}", "key": f"history:{number}/0"}
    return {**told, "delivery": Delivery.DELIVERED, "reported_at": at}


def _known(number: int) -> Row:
    return {"channel": SMS.name, "message_id": f"SM{number}"}


def _received(number: int, at: datetime) -> Row:
    said = {"message_id": f"history:{number}", "text": "4a eggs", "sender": "ida"}
    when = {"sent_at": at, "received_at": at, "state": "done"}
    return {"channel": TELEGRAM.name, "address": str(number), **said, **when}


def started(database: Path) -> Start:
    """Start the program on a copy of a database, and ask it."""
    port = free_port()
    # Each stand-in counts its messages from 1, and a known message is not answered.
    fresh = shutil.copy(database, database.with_name("fresh"))
    with running_standin() as api:
        settings = our_settings(api, f"sqlite:///{fresh}") | {"YARDBELL_PAGES": f"127.0.0.1:{port}"}
        with running(api, ours(api), settings) as bot:
            first, *due = [_due(bot) for _ in range(ASKED + 1)]
            metrics = [_metrics(port) for _ in range(ASKED)]
            return Start(bot.polled_after, first, due, metrics, bot.memory_mib)


def _due(bot: Bot) -> float:
    took = bot.say("due") * 1e3
    # A carrier lets us send about one message a second to one chat.
    time.sleep(1.05)
    return took


def _metrics(port: int) -> float:
    began = time.perf_counter()
    with urllib.request.urlopen(f"http://127.0.0.1:{port}/metrics") as answer:
        answer.read()
    return (time.perf_counter() - began) * 1e3


def pruned_by_a_tick(database: Path, now: datetime) -> int:
    """Let all of it be old, and give how many rows one tick deletes."""
    engine = open_engine(f"sqlite:///{database}")
    number = prune(engine, now + 2 * KEPT)
    engine.dispose()
    return number


def history(*messages: int) -> None:
    """Measure and print."""
    print(f"After so many messages, the middle of {STARTS} starts; milliseconds unless said\n")
    print(
        f"{'messages':>9} {'MB':>6} {'first poll s':>13} {'first due':>10} {'due':>7}"
        f" {'metrics':>8} {'most':>7} {'MiB':>7} {'deleted a tick':>15}"
    )
    for number in messages:
        with TemporaryDirectory() as folder:
            database = Path(folder) / "bees.sqlite"
            with_history(database, number, now := datetime.now(UTC))
            size = database.stat().st_size / 1e6
            _print(number, size, [started(database) for _ in range(STARTS)])
            print(f"{pruned_by_a_tick(database, now):>15}", flush=True)


def _print(number: int, size: float, starts: list[Start]) -> None:
    figures = (
        (median(each.polled_s for each in starts), ">13.2f"),
        (median(each.first_due_ms for each in starts), ">10.0f"),
        (median(took for each in starts for took in each.due_ms), ">7.0f"),
        (median(took for each in starts for took in each.metrics_ms), ">8.1f"),
        (max(took for each in starts for took in each.metrics_ms), ">7.1f"),
        (median(each.mib for each in starts), ">7.1f"),
    )
    row = " ".join(format(figure, form) for figure, form in figures)
    print(f"{number:>9} {size:>6.0f} {row}", end=" ", flush=True)
