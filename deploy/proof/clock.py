"""A clock that several processes share: it stands in a file, may run fast, and may be moved."""

import time
from datetime import datetime, timedelta
from pathlib import Path


class SharedClock:
    """The clock in a file; ``rate`` seconds pass on it in each real one, 0 lets it stand."""

    def __init__(self, file: Path) -> None:
        self._file = file

    def __call__(self) -> datetime:
        """The instant it shows, aware, in UTC."""
        shown, since, rate = self._file.read_text().split()
        passed = timedelta(seconds=(time.time() - float(since)) * float(rate))
        return datetime.fromisoformat(shown) + passed

    def set(self, to: datetime, rate: float) -> None:
        """Set it, for all processes at once."""
        new = self._file.with_suffix(".new")
        new.write_text(f"{to.isoformat()} {time.time()!r} {rate}")
        new.replace(self._file)
