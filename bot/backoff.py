"""Back-off: how long to wait before the next try, by tenacity's exponential wait."""

from dataclasses import dataclass
from datetime import timedelta

from tenacity import RetryCallState, Retrying, wait_exponential


@dataclass(frozen=True)
class Backoff:
    """Waits between tries: doubling from ``first`` up to ``longest``."""

    first: timedelta
    longest: timedelta

    def after(self, failures: int) -> timedelta:
        """Say how long to wait after ``failures`` (1 or more) in a row.

        A wait that is stored outlives the process that retries, so the library's record of a call
        is made for it.
        """
        call = RetryCallState(Retrying(), None, (), {})
        call.attempt_number = failures
        wait = wait_exponential(self.first.total_seconds(), self.longest)
        return timedelta(seconds=wait(call))
