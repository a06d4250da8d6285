"""APScheduler wakes, the database decides: a few ticks and no job for any reminder."""

import asyncio
import logging
from collections.abc import Awaitable, Callable
from datetime import UTC

from apscheduler.schedulers.asyncio import AsyncIOScheduler
from apscheduler.triggers.interval import IntervalTrigger
from sqlalchemy import Engine

from bot.bell.mornings import ring_mornings
from bot.post.office import Office
from bot.post.sender import Clock

log = logging.getLogger(__name__)

MORNING_TICK_SECONDS = 15
OUTBOX_TICK_SECONDS = 1


class Bell:
    """The ticks of a running program.

    A tick that is late runs once, and one that is still running is not doubled.
    """

    def __init__(self, engine: Engine, office: Office, clock: Clock) -> None:
        self._engine = engine
        self._office = office
        self._clock = clock
        self._scheduler = AsyncIOScheduler(
            timezone=UTC,
            job_defaults={"coalesce": True, "misfire_grace_time": None, "max_instances": 1},
        )

    def start(self) -> None:
        """Begin to tick, the first time at once."""
        self._tick("mornings", self.mornings, MORNING_TICK_SECONDS)
        self._tick("outbox", self._office.deliver, OUTBOX_TICK_SECONDS)
        self._scheduler.start()

    def stop(self) -> None:
        """Tick no more."""
        self._scheduler.shutdown(wait=False)

    async def mornings(self) -> None:
        """Queue the mornings whose time has come."""
        await asyncio.to_thread(ring_mornings, self._engine, self._clock())

    def _tick(self, name: str, work: Callable[[], Awaitable[None]], seconds: int) -> None:
        async def ticked() -> None:
            try:
                await work()
            except Exception:
                log.exception("the tick %s failed; the next one tries again", name)

        self._scheduler.add_job(
            ticked, IntervalTrigger(seconds=seconds), id=name, next_run_time=self._clock()
        )
