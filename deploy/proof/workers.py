"""Worker processes that are started, killed and started again.

Most are forked from one that has all modules loaded, at a tenth of the cost of a new one.
"""

import subprocess
import time
from contextlib import chdir
from dataclasses import dataclass, field
from multiprocessing import forkserver, get_context
from multiprocessing.context import ForkServerContext, ForkServerProcess
from pathlib import Path

from deploy.proof.worker import CLOCK, begin
from deploy.standins.bot_api_standin import TOKEN
from deploy.standins.program_beside import ROOT, start_beside


def forking() -> ForkServerContext:
    """The way to start such processes, with the one they are forked from running."""
    context = get_context("forkserver")
    context.set_forkserver_preload(["__main__", "deploy.proof.warm"])
    with chdir(ROOT):
        forkserver.ensure_running()
    return context


Started = ForkServerProcess | subprocess.Popen[bytes]

_IN_FULL_EVERY = 8
"""One start in so many is that of a whole interpreter, by far the slower one."""


@dataclass
class Workers:
    """Processes that serve one database; each start has a name of its own for the carrier.

    Most are forked from a process that has all modules loaded and serves nothing. They are
    processes like the others, and cost a tenth to start.

    Attributes:
        folder: where the clock and the log lie.
        database: SQLAlchemy's URL.
        url: the address of the Bot API.
        running: the processes by name.
        killed: when each was killed, by a monotonic clock in seconds.
    """

    folder: Path
    database: str
    url: str
    running: dict[str, Started] = field(default_factory=dict)
    killed: dict[str, float] = field(default_factory=dict)
    _started: int = 0

    @property
    def clock_file(self) -> Path:
        """The file in which the workers' clock stands."""
        return self.folder / "clock"

    @property
    def log(self) -> str:
        """All that the workers wrote."""
        return (self.folder / "log").read_text(encoding="utf-8", errors="replace")

    def start(self) -> str:
        """Start one more; gives its name."""
        self._started += 1
        name = f"worker{self._started}"
        settings = {
            "YARDBELL_DATABASE": self.database,
            "YARDBELL_TELEGRAM_TOKEN": TOKEN,
            "YARDBELL_TELEGRAM_URL": f"{self.url}/{name}",
            CLOCK: str(self.clock_file),
        }
        in_full = self._started % _IN_FULL_EVERY == 0
        start = _interpreter if in_full else _fork
        self.running[name] = start(settings, self.folder)
        return name

    def kill(self, name: str) -> None:
        """Kill one with SIGKILL, from any thread; nothing if it was killed before."""
        if name in self.killed:
            return
        self.killed[name] = time.monotonic()
        self.running[name].kill()

    def bury(self, name: str) -> None:
        """Wait for the end of one that was killed."""
        _code(self.running.pop(name), 30)

    def kill_all(self) -> int:
        """Kill every one; gives how many that were."""
        names = list(self.running)
        for name in names:
            self.kill(name)
        for name in names:
            self.bury(name)
        return len(names)

    def stop_all(self) -> list[int]:
        """Ask each to stop; gives their exit codes."""
        for process in self.running.values():
            process.terminate()
        codes = [_code(process, 60) for process in self.running.values()]
        self.running.clear()
        return codes


def _fork(settings: dict[str, str], folder: Path) -> Started:
    forked = forking().Process(target=begin, args=(settings, folder))
    forked.start()
    return forked


def _interpreter(settings: dict[str, str], folder: Path) -> Started:
    return start_beside(["-m", "deploy.proof.worker"], settings, folder, folder / "log")


def _code(process: Started, seconds: float) -> int:
    """Wait for the end of a process; gives its exit code.

    Raises:
        TimeoutError: it does not end.
    """
    if isinstance(process, subprocess.Popen):
        return process.wait(seconds)
    process.join(seconds)
    if process.exitcode is None:
        raise TimeoutError(f"process {process.pid} does not end")
    return process.exitcode
