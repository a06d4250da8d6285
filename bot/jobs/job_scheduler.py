"""APScheduler wakes, the database decides: a few ticks and no job for any reminder."""

import asyncio
from collections.abc import Awaitable, Callable, Collection
from datetime import UTC, datetime, timedelta
from time import monotonic

from apscheduler.schedulers.asyncio import AsyncIOScheduler
from sqlalchemy import Engine

from bot.delivery.dispatcher import App, Dispatcher
from bot.delivery.inbox import forget_handled
from bot.delivery.pruning import prune
from bot.delivery.rate_limit import forget_passed
from bot.delivery.silent_channels import tell_of_silence
from bot.delivery.sms_budget import SmsBudget, tell_of_sms_budget
from bot.gc_tuning import collect_all
from bot.jobs.clock_set_back import due_again
from bot.jobs.dead_mans_switch import DeadMansSwitch
from bot.jobs.fallback import fall_back
from bot.jobs.health import health
from bot.jobs.mornings import queue_some
from bot.jobs.ready_mornings import make_some_ready
from bot.jobs.service_manager import Life, tell_service_manager
from bot.jobs.ticks import EverySoOften, MovedClock
from bot.monitoring import (
    Counted,
    beat,
    count,
    running_name,
    take_unwritten,
    tick_name,
    write_beats,
)
from bot.program_log import log_of
from bot.weather.refresh import refresh_one, renew_days
from scheduling.records.engine import fault_of_database, writing

log = log_of(__name__)

MORNING_TICK_SECONDS = 15
MAKE_READY_SECONDS = 10
"""For how long a morning tick makes mornings ready, so that it ends before the next one."""
OUTBOX_TICK_SECONDS = 1
WEATHER_TICK_SECONDS = 60
HOUSEKEEPING_TICK_SECONDS = 60
WATCH_TICK_SECONDS = 15
GARBAGE_TICK_SECONDS = 3600
ALIVE_TICK_SECONDS = 60
CLOCK_LOOK_SECONDS = 5
SAY_AGAIN_SECONDS = 60
"""How often a tick that meets the same fault of the database says so: some tick every second."""

LEFT_LYING = timedelta(minutes=1)
"""A message in that was not worked through for this long was left by a worker that died."""


class JobScheduler:
    """The ticks of a running program.

    A tick that is late runs once, and one that is still running is not doubled.

    Args:
        app: the parts of the program.
        dispatcher: sends what the ticks queue.
        alive: is told that all is well; None for nobody.
    """

    def __init__(
        self, app: App, dispatcher: Dispatcher, alive: DeadMansSwitch | None = None
    ) -> None:
        self._app = app
        self._alive = alive
        self._dispatcher = dispatcher
        self._running = tuple(app.channels)
        self._ticking: dict[str, asyncio.Event] = {}
        self._said: dict[str, tuple[str, float]] = {}
        self._stopping = False
        # Two instances, because a tick that finds itself running is done at once.
        self._scheduler = AsyncIOScheduler(
            timezone=UTC,
            job_defaults={"coalesce": True, "misfire_grace_time": None, "max_instances": 2},
        )

    def start(self) -> None:
        """Begin to tick, the first time at once."""
        self._tick("mornings", self.mornings, MORNING_TICK_SECONDS)
        self._tick("outbox", self._dispatcher.deliver, OUTBOX_TICK_SECONDS)
        self._tick("weather", self.weather, WEATHER_TICK_SECONDS)
        self._tick("housekeeping", self.housekeeping, HOUSEKEEPING_TICK_SECONDS)
        self._tick("watch", self.watch, WATCH_TICK_SECONDS)
        self._tick("garbage", self.collect_garbage, GARBAGE_TICK_SECONDS)
        if self._alive is not None:
            self._tick("alive", self.tell_alive, ALIVE_TICK_SECONDS)
        self._scheduler.start()
        self._looking = asyncio.create_task(self._look_at_clock())

    async def stop(self) -> None:
        """Tick no more; a tick under way ends what it has in hand."""
        self._stopping = True
        self._looking.cancel()
        self._scheduler.pause()
        for ended in tuple(self._ticking.values()):
            await ended.wait()
        self._scheduler.shutdown(wait=False)

    async def mornings(self) -> None:
        """Queue the mornings that are due, send on what did not arrive, and make others ready."""
        app, looked_at = self._app, -1
        while looked_at != 0 and not self._stopping:
            looked_at = await asyncio.to_thread(
                queue_some, app.engine, app.clock(), self._running, app.sms_budget
            )
        if not self._stopping:
            await asyncio.to_thread(fall_back, app.engine, app.clock(), self._running)
        await self._make_ready()

    async def _make_ready(self) -> None:
        """Make mornings ready until shortly before the next tick, and rest as long as each took."""
        app, until, made = self._app, monotonic() + MAKE_READY_SECONDS, -1
        while made != 0 and not self._stopping and (began := monotonic()) < until:
            made = await asyncio.to_thread(
                make_some_ready, app.engine, app.clock(), self._running, app.sms_budget
            )
            if made:
                await asyncio.sleep(monotonic() - began)

    async def weather(self) -> None:
        """Ask for the weather of the yards for which it is due, one after the other."""
        source = self._app.weather
        while source is not None and not self._stopping:
            if not await asyncio.to_thread(
                refresh_one, self._app.engine, source, self._app.clock()
            ):
                return

    async def housekeeping(self) -> None:
        """Catch up what dead workers left lying, and forget what is of no use any more."""
        await asyncio.to_thread(due_again, self._app.engine, self._app.clock())
        await self._dispatcher.catch_up(LEFT_LYING)
        await asyncio.to_thread(self._forget)
        app = self._app
        await asyncio.to_thread(prune, app.engine, app.clock(), app.kept, self._goes_on)
        await asyncio.to_thread(renew_days, app.engine, self._goes_on)

    def _goes_on(self) -> bool:
        return not self._stopping

    def _forget(self) -> None:
        now = self._app.clock()
        with writing(self._app.engine) as session:
            forget_handled(session, now)
            forget_passed(session, now)

    async def watch(self) -> None:
        """Write the heartbeats down, and tell the owners if nothing gets through."""
        try:
            await asyncio.to_thread(
                monitor_once,
                self._app.engine,
                self._app.clock(),
                self._running,
                self._app.sms_budget,
            )
        finally:
            # What failed lives as well; to start anew helps only what hangs.
            tell_service_manager(Life.ALIVE)

    async def tell_alive(self) -> None:
        """Tell the dead man's switch that all is well, if it is."""
        now = self._app.clock()
        if self._alive is None or not self._alive.is_due(now):
            return
        found = await asyncio.to_thread(health, self._app.engine, now)
        if found["ok"] and not found["silent"]:
            await self._alive.tell(now)

    async def collect_garbage(self) -> None:
        """Look for garbage among old objects, which is not done between two replies."""
        await asyncio.to_thread(collect_all, self._app.engine)

    async def _look_at_clock(self) -> None:
        moved = MovedClock()
        while True:
            await asyncio.sleep(CLOCK_LOOK_SECONDS)
            moved.wake(self._scheduler)

    def _is_said(self, tick: str, fault: str) -> bool:
        """Tell whether a tick's fault of the database was logged within the last minute."""
        now, (said, at) = monotonic(), self._said.get(tick, ("", 0.0))
        if fault and fault == said and now - at < SAY_AGAIN_SECONDS:
            return True
        self._said[tick] = fault, now
        return False

    def _tick(self, name: str, work: Callable[[], Awaitable[None]], seconds: int) -> None:
        async def ticked() -> None:
            if name in self._ticking or self._stopping:
                return
            ended = self._ticking[name] = asyncio.Event()
            try:
                await work()
                beat(tick_name(name), self._app.clock())
                count(Counted.TICKS, tick=name, result="done")
            except Exception as error:
                count(Counted.TICKS, tick=name, result="failed")
                if not self._is_said(name, fault_of_database(error)):
                    log.exception("a tick failed, the next one tries again", tick=name)
            finally:
                del self._ticking[name]
                ended.set()

        self._scheduler.add_job(
            ticked,
            EverySoOften(timedelta(seconds=seconds)),
            id=name,
            # By the scheduler's own clock, whatever day it is on ours.
            next_run_time=datetime.now(UTC),
        )


def monitor_once(
    engine: Engine, now: datetime, running: Collection[str], sms_budget: SmsBudget | None = None
) -> None:
    """Write down the heartbeats since the last time; tell the owners what they should know.

    Args:
        engine: the database.
        now: aware instant.
        running: names of the channels that run.
        sms_budget: how many segments of SMS a month has; None for no end of them.
    """
    with writing(engine) as session:
        alive = {running_name(channel): now for channel in running}
        write_beats(session, take_unwritten() | alive)
        tell_of_silence(session, now, running)
        if sms_budget is not None:
            tell_of_sms_budget(session, now, sms_budget, running)
