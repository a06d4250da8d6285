"""What a bot weighs in memory and how soon it polls, beside a bare bot on the same library."""

import shutil
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

from deploy.benchmark.many_crews import small_crew
from deploy.benchmark.running_bot import CHAT, bare, our_settings, ours, running
from deploy.standins.bot_api_standin import BotApiStandin, running_standin
from scheduling.records.engine import open_engine
from scheduling.records.migrate import migrate

STARTS = 3


@dataclass(frozen=True)
class Weight:
    """What one start came to.

    Attributes:
        seconds: from the start to the first poll.
        processor_seconds: of its own work until then.
        polling_mib: memory at the first poll.
        answered_mib: memory after the first answer.
    """

    seconds: float
    processor_seconds: float
    polling_mib: float
    answered_mib: float


def weighed(api: BotApiStandin, command: Sequence[str], settings: Mapping[str, str]) -> Weight:
    """Start a bot, weigh it, let it answer once, and weigh it again."""
    with running(api, command, settings) as bot:
        work, polling = bot.processor_seconds, bot.memory_mib
        bot.say("4a eggs")
        return Weight(bot.polled_after, work, polling, bot.memory_mib)


def weights(starts: int) -> dict[str, Weight]:
    """Weigh the bare bot and ours by turns; of several starts each figure's middle."""
    found: dict[str, list[Weight]] = {"a bare bot": [], "serve, one crew": []}
    with TemporaryDirectory() as folder:
        database = Path(folder) / "bees.sqlite"
        engine = open_engine(f"sqlite:///{database}")
        migrate(engine)
        small_crew(engine, datetime.now(UTC), "telegram", str(CHAT))
        engine.dispose()
        for number in range(starts):
            with running_standin() as api:
                found["a bare bot"].append(weighed(api, bare(api), {}))
            with running_standin() as api:
                # Each stand-in counts its messages from 1, and a known message is not answered.
                fresh = shutil.copy(database, database.with_name(str(number)))
                settings = our_settings(api, f"sqlite:///{fresh}")
                found["serve, one crew"].append(weighed(api, ours(api), settings))
    return {name: _middle(each) for name, each in found.items()}


def weight(starts: int) -> None:
    """Measure and print."""
    print(f"Start and memory, the middle of {starts} starts; memory is the proportional share\n")
    print(f"{'':<18} {'first poll s':>13} {'cpu s':>7} {'MiB polling':>12} {'answered':>9}")
    found = weights(starts)
    for name, each in found.items():
        row = f"{name:<18} {each.seconds:>13.2f} {each.processor_seconds:>7.2f}"
        print(f"{row} {each.polling_mib:>12.1f} {each.answered_mib:>9.1f}")
    plain, full = found.values()
    more = full.polling_mib - plain.polling_mib, full.answered_mib - plain.answered_mib
    print(f"{'more':<18} {'':>13} {'':>7} {more[0]:>12.1f} {more[1]:>9.1f}")


def _middle(each: Sequence[Weight]) -> Weight:
    return Weight(
        median(one.seconds for one in each),
        median(one.processor_seconds for one in each),
        median(one.polling_mib for one in each),
        median(one.answered_mib for one in each),
    )
