"""A token bucket, the rate limit on what strangers post: so many a second, some more at once."""

from dataclasses import dataclass, field
from datetime import datetime


@dataclass
class Bucket:
    """Lets ``a_second`` requests through in the long run, and ``at_once`` after a pause."""

    a_second: float
    at_once: float
    _left: float = field(init=False)
    _since: datetime | None = field(default=None, init=False)

    def __post_init__(self) -> None:
        """Begin full."""
        self._left = self.at_once

    def take(self, now: datetime) -> bool:
        """Let one through, or say that it is one too many."""
        passed = 0.0 if self._since is None else max(0.0, (now - self._since).total_seconds())
        self._left = min(self.at_once, self._left + passed * self.a_second)
        self._since = now
        if self._left < 1:
            return False
        self._left -= 1
        return True
