"""Ticks that a moved clock neither stops nor heaps up."""

import time
from datetime import UTC, datetime, timedelta

from apscheduler.schedulers.base import BaseScheduler
from apscheduler.triggers.base import BaseTrigger

_MOVED = timedelta(seconds=5)
"""How far wall clock and steady clock may part before the wall clock counts as moved."""


class EverySoOften(BaseTrigger):  # type: ignore[misc]  # the library has no types
    """Ticks so long after the last look; what was missed is not made up for.

    The library's own interval lists every missed tick first: after a clock without a battery was
    put right by a year, that takes minutes and gigabytes.
    """

    def __init__(self, every: timedelta) -> None:
        self._every = every

    def get_next_fire_time(self, _previous: datetime | None, now: datetime) -> datetime:
        """Give the next tick, counted from now."""
        return now + self._every


class MovedClock:
    """Notices that the wall clock was moved, by a steady clock beside it."""

    def __init__(self) -> None:
        self._apart = _apart()

    def wake(self, scheduler: BaseScheduler) -> None:
        """After a move let every tick come now; each may have been put off by as much."""
        apart = _apart()
        if abs(apart - self._apart) < _MOVED:
            return
        self._apart = apart
        for job in scheduler.get_jobs():
            job.modify(next_run_time=datetime.now(UTC))


def _apart() -> timedelta:
    return timedelta(seconds=time.time() - time.monotonic())
