"""How long a reply waits for its answer, beside a bare bot that echoes on the same library."""

import itertools
import time
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from statistics import median, quantiles
from tempfile import TemporaryDirectory

from sqlalchemy import func, select

from bot.post.pace import PACES
from deploy.benchmark.invented_crew import UNITS
from deploy.benchmark.many_crews import fill
from deploy.benchmark.running_bot import CHAT, Bot, bare, our_settings, ours, running
from scheduling.records.engine import open_engine, reading
from scheduling.records.migrate import migrate
from scheduling.records.tables import EntryRow
from tests.bot.channels.bot_api_standin import running_standin

WARM_UP = 4
APART_SECONDS = PACES["telegram"].same_address.total_seconds() + 0.05
"""Between two replies: a carrier lets us send about one message a second to one chat."""

FINDINGS = ("eggs", "no eggs", "queen seen", "fed 1 quart")


@dataclass(frozen=True)
class Answered:
    """How long answers took.

    Attributes:
        milliseconds: of each reply, from HTTP to HTTP.
        processor_milliseconds: of the bot's own work, for a reply.

    """

    milliseconds: tuple[float, ...]
    processor_milliseconds: float

    @property
    def half(self) -> float:
        """Half of the answers took no longer, in milliseconds."""
        return median(self.milliseconds)

    @property
    def nearly_all(self) -> float:
        """99 of 100 answers took no longer, in milliseconds."""
        return quantiles(self.milliseconds, n=100)[98]


def findings() -> Iterator[str]:
    """Give replies that are recorded, each of another unit than the one before."""
    for number, finding in enumerate(itertools.cycle(FINDINGS)):
        yield f"{number // 3 % 20 + 1}{'abc'[number % 3]} {finding}"


def say(bot: Bot, text: str) -> float:
    """Write once the chat is free for another answer; gives the milliseconds until that."""
    time.sleep(APART_SECONDS)
    return bot.say(text) * 1e3


def measured(bot: Bot, texts: Iterator[str], replies: int) -> Answered:
    """Write so many replies to a bot, one after the other."""
    for text in itertools.islice(texts, WARM_UP):
        say(bot, text)
    before = bot.processor_seconds
    took = tuple(say(bot, text) for text in itertools.islice(texts, replies))
    return Answered(took, (bot.processor_seconds - before) / replies * 1e3)


def replies_measured(crews: int, replies: int) -> dict[str, Answered]:
    """Measure the bare bot and ours, with a full database, side by side in one run."""
    with TemporaryDirectory() as folder:
        database = Path(folder) / "bees.sqlite"
        _fill(database, crews)
        with running_standin() as api, running(api, bare(api), {}) as bot:
            echo = measured(bot, findings(), replies)
        with (
            running_standin() as api,
            running(api, ours(api), our_settings(api, database)) as bot,
        ):
            bot.say("River")
            before = _entries(database)
            recorded = measured(bot, findings(), replies)
            if _entries(database) != before + WARM_UP + replies:
                raise ValueError("not every finding was recorded")
            due = measured(bot, itertools.repeat("due"), max(2, replies // 4))
        return {"a bare bot's echo": echo, "a finding": recorded, '"due"': due}


def replies(number: int, crews: int) -> None:
    """Measure and print."""
    found = replies_measured(crews, number)
    echo = found["a bare bot's echo"]
    print(f"Replies with {crews * UNITS:,} units in the database, milliseconds over HTTP\n")
    print(f"{'':<20} {'half':>7} {'99 %':>7} {'cpu':>7} {'times half':>11} {'times cpu':>10}")
    for what, took in found.items():
        times = took.half / echo.half
        work = took.processor_milliseconds / echo.processor_milliseconds
        row = f"{what:<20} {took.half:>7.1f} {took.nearly_all:>7.1f}"
        print(f"{row} {took.processor_milliseconds:>7.1f} {times:>11.1f} {work:>10.1f}")


def _fill(database: Path, crews: int) -> None:
    engine = open_engine(f"sqlite:///{database}")
    migrate(engine)
    fill(engine, crews, datetime.now(UTC), "telegram", CHAT)
    engine.dispose()


def _entries(database: Path) -> int:
    engine = open_engine(f"sqlite:///{database}")
    with reading(engine) as session:
        number = session.scalar(select(func.count()).select_from(EntryRow))
    engine.dispose()
    return number or 0
