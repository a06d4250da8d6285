"""Worker processes that are started, killed and started again."""

import os
import subprocess
import sys
import time
from dataclasses import dataclass, field
from pathlib import Path

from tests.bot.channels.bot_api_standin import TOKEN
from tests.proof.worker import CLOCK

ROOT = Path(__file__).parents[2]


@dataclass
class Workers:
    """Processes that serve one database; each start has a name of its own for the carrier.

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
    running: dict[str, "subprocess.Popen[bytes]"] = field(default_factory=dict)
    killed: dict[str, float] = field(default_factory=dict)
    _started: int = 0

    @property
    def clock_file(self) -> Path:
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
            "PYTHONPATH": str(ROOT),
            "PYTHONUNBUFFERED": "1",
        }
        plain = {k: v for k, v in os.environ.items() if not k.startswith("YARDBELL_")}
        with (self.folder / "log").open("ab") as log:
            self.running[name] = subprocess.Popen(
                [sys.executable, "-m", "tests.proof.worker"],
                cwd=self.folder,
                env=plain | settings,
                stdout=log,
                stderr=log,
            )
        return name

    def kill(self, name: str) -> None:
        """Kill one with SIGKILL, from any thread; nothing if it was killed before."""
        if name in self.killed:
            return
        self.killed[name] = time.monotonic()
        self.running[name].kill()

    def bury(self, name: str) -> None:
        """Wait for the end of one that was killed."""
        self.running.pop(name).wait(30)

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
        codes = [process.wait(60) for process in self.running.values()]
        self.running.clear()
        return codes
