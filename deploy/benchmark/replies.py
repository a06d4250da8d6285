"""How long a reply waits for its answer, beside a bare bot that echoes on the same library."""

import itertools
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from statistics import median, quantiles
from tempfile import TemporaryDirectory

from sqlalchemy import func, select

from bot.channels.traits import TELEGRAM_RATE_LIMIT
from deploy.benchmark.invented_crew import UNITS
from deploy.benchmark.many_crews import fill
from deploy.benchmark.running_bot import CHAT, Bot, bare, our_settings, ours, running
from deploy.standins.bot_api_standin import running_standin
from scheduling.records.engine import open_engine, reading
from scheduling.records.migrate import migrate
from scheduling.records.tables import EntryRow

WARM_UP = 4
APART_SECONDS = TELEGRAM_RATE_LIMIT.same_address.total_seconds() + 0.05
"""Between two replies: a carrier lets us send about one message a second to one chat."""

SETTLED_SECONDS = 0.2
"""After an answer arrived, until the bot has written that down."""

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


def by_turns(bots: Sequence[Bot], texts: Iterator[str], replies: int) -> list[Answered]:
    """Write so many replies to each bot, to one right after the other, and by turns to one first.

    So whatever else the machine does bears on all of them alike.
    """
    for text in itertools.islice(texts, WARM_UP):
        for bot in bots:
            say(bot, text)
    before = [bot.processor_seconds for bot in bots]
    took: list[list[float]] = [[] for _ in bots]
    for number, text in enumerate(itertools.islice(texts, replies)):
        time.sleep(APART_SECONDS)
        each = list(enumerate(bots))
        for at, bot in each[:: -1 if number % 2 else 1]:
            took[at].append(bot.say(text) * 1e3)
    worked = [bot.processor_seconds - since for bot, since in zip(bots, before, strict=True)]
    return [
        Answered(tuple(some), work / replies * 1e3) for some, work in zip(took, worked, strict=True)
    ]


def due_after_findings(bot: Bot, texts: Iterator[str], replies: int) -> Answered:
    """Ask what is due, each time after another finding was recorded."""
    took, work = [], 0.0
    for text in itertools.islice(texts, replies):
        say(bot, text)
        time.sleep(APART_SECONDS)
        before = bot.processor_seconds
        took.append(bot.say("due") * 1e3)
        time.sleep(SETTLED_SECONDS)
        work += bot.processor_seconds - before
    return Answered(tuple(took), work / replies * 1e3)


def replies_measured(crews: int, replies: int) -> dict[str, Answered]:
    """Measure the bare bot and ours, with a full database, side by side in one run."""
    with TemporaryDirectory() as folder:
        database = Path(folder) / "bees.sqlite"
        _fill(database, crews)
        with (
            running_standin() as api,
            running(api, bare(api), {}) as plain,
            running_standin() as our_api,
            running(our_api, ours(our_api), our_settings(our_api, f"sqlite:///{database}")) as bot,
        ):
            bot.say("River")
            before, texts = _entries(database), findings()
            echo, recorded = by_turns((plain, bot), texts, replies)
            due = due_after_findings(bot, texts, max(2, replies // 4))
            if _entries(database) != before + WARM_UP + replies + len(due.milliseconds):
                raise ValueError("not every finding was recorded")
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
