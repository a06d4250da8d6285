"""``serve`` by a shared clock that notes how long its transactions take: ``python -m ... FILE``."""

import sys
import time
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, event

from deploy.proof import worker

_BEGAN = "began"


class TimesOfWrites:
    """When transactions that may write ended, and their seconds: by the clock, of the processor."""

    def __init__(self) -> None:
        self.each: list[tuple[float, float, float]] = []

    def watch(self) -> None:
        """Note the transactions of every engine of this process."""
        event.listen(Engine, "begin", self._begun)
        event.listen(Engine, "commit", self._ended)

    def _begun(self, connection: Connection) -> None:
        connection.info[_BEGAN] = time.perf_counter(), time.thread_time()

    def _ended(self, connection: Connection, *_: Any) -> None:
        if not connection.get_execution_options().get("reading", False):
            wall, processor = connection.info[_BEGAN]
            taken = time.perf_counter() - wall, time.thread_time() - processor
            self.each.append((time.time(), *taken))


def main(file: Path) -> None:
    """Serve until told to stop, and write down how long each transaction took."""
    times = TimesOfWrites()
    times.watch()
    try:
        worker.main()
    finally:
        lines = (f"{at:.3f} {wall:.6f} {processor:.6f}" for at, wall, processor in times.each)
        file.write_text("\n".join(lines))


if __name__ == "__main__":
    main(Path(sys.argv[1]))
