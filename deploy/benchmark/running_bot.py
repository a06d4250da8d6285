"""A bot as a process of its own, against a local stand-in of the Bot API."""

import os
import subprocess
import time
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from deploy.standins.bot_api_standin import TOKEN, BotApiStandin, Call, Moment
from deploy.standins.program_beside import start_beside

CHAT = 1000
"""The chat of the person who writes; in a full database those after it are the other crews'."""

START_WITHIN_SECONDS = 60
ANSWER_WITHIN_SECONDS = 90


@dataclass
class Moments:
    """When the bot fetched and sent, by a steady clock in seconds.

    Attributes:
        polled: when its first fetch came in.
        handed_out: when an answer to a fetch last left.
        sent: when each message arrived.
    """

    polled: float | None = None
    handed_out: float = 0.0
    sent: list[float] = field(default_factory=list)

    def note(self, call: Call, moment: Moment) -> None:
        """Note a call; the stand-in's own thread calls this."""
        now = time.perf_counter()
        if call.method == "getUpdates" and moment is Moment.ARRIVED:
            self.polled = self.polled or now
        elif call.method == "getUpdates":
            self.handed_out = now
        elif call.method == "sendMessage" and moment is Moment.ARRIVED:
            self.sent.append(now)


@dataclass(frozen=True)
class Bot:
    """A bot that has begun to poll.

    Attributes:
        api: the stand-in it talks to.
        moments: what it did when.
        process: its process.
        polled_after: seconds from its start to its first poll.
    """

    api: BotApiStandin
    moments: Moments
    process: "subprocess.Popen[bytes]"
    polled_after: float

    def say(self, text: str) -> float:
        """Write to the bot; gives the seconds from update to answer, both over HTTP."""
        before = len(self.moments.sent)
        self.api.push_text(CHAT, text, "ida")
        self.api.wait_for_sent(before + 1, ANSWER_WITHIN_SECONDS)
        return self.moments.sent[before] - self.moments.handed_out

    @property
    def memory_mib(self) -> float:
        """What of the machine's memory it alone is to blame for (its proportional share)."""
        lines = Path(f"/proc/{self.process.pid}/smaps_rollup").read_text().splitlines()
        return next(int(line.split()[1]) for line in lines if line.startswith("Pss:")) / 1024

    @property
    def processor_seconds(self) -> float:
        """Seconds of a processor's work so far."""
        fields = Path(f"/proc/{self.process.pid}/stat").read_text().rpartition(")")[2].split()
        return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def bare(api: BotApiStandin) -> list[str]:
    """Give what Python runs as the bare bot."""
    return _python(f"from deploy.benchmark.echo_bot import main; main({api.url!r}, {TOKEN!r})")


def ours(_api: BotApiStandin) -> list[str]:
    """Give what Python runs as this program."""
    return _python("from bot.command import main; main(['serve'])")


def _python(doing: str) -> list[str]:
    """Run as where the program is installed: two libraries come with the tests alone."""
    hidden = "import sys; sys.modules.update(rich=None, pygments=None)"
    return ["-c", f"{hidden}; {doing}"]


def our_settings(api: BotApiStandin, database: str) -> dict[str, str]:
    """Give the settings of this program for a stand-in and a database's URL."""
    return {
        "YARDBELL_DATABASE": database,
        "YARDBELL_TELEGRAM_TOKEN": TOKEN,
        "YARDBELL_TELEGRAM_URL": api.url,
        "YARDBELL_WEATHER_OFF": "1",
        "YARDBELL_LOG_LEVEL": "WARNING",
    }


@contextmanager
def running(
    api: BotApiStandin, command: Sequence[str], settings: Mapping[str, str]
) -> Iterator[Bot]:
    """Start a bot and wait for its first poll; at the end it is asked to stop."""
    moments = Moments()
    api.watch = moments.note
    began = time.perf_counter()
    process = start_beside(command, settings)
    try:
        api.wait_until(lambda: moments.polled is not None, "the first poll", START_WITHIN_SECONDS)
        yield Bot(api, moments, process, (moments.polled or 0.0) - began)
    finally:
        process.terminate()
        process.wait(60)
