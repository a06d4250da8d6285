"""Ticks go on whatever is done to the machine's clock."""

import asyncio
import time
from datetime import UTC, datetime, timedelta

import pytest
from apscheduler.schedulers.asyncio import AsyncIOScheduler
from sqlalchemy import Engine

from bot.conversation.message_handler import MessageHandler
from bot.delivery.dispatcher import App, Dispatcher
from bot.jobs import job_scheduler as ticking
from bot.jobs.job_scheduler import JobScheduler
from bot.jobs.ticks import EverySoOften, MovedClock
from deploy.standins.waiting import WAIT_AT_MOST_SECONDS

LONG_AGO = datetime(2010, 1, 1, tzinfo=UTC)
"""What a small machine without a battery may show when it starts."""


class Machine:
    """A wall clock that is moved, for the scheduler and for what watches it."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.ahead = timedelta(0)
        machine = self

        class Wall(datetime):
            @classmethod
            def now(cls, tz=None):  # type: ignore[no-untyped-def]
                return datetime.now(tz) + machine.ahead

        monkeypatch.setattr("apscheduler.schedulers.base.datetime", Wall)
        monkeypatch.setattr("bot.jobs.ticks.datetime", Wall)
        began, steady = time.time(), time.monotonic()
        monkeypatch.setattr(
            "bot.jobs.ticks.time.time",
            lambda: began + (time.monotonic() - steady) + machine.ahead.total_seconds(),
        )


def test_a_missed_year_of_ticks_is_one_tick() -> None:
    missed_since = datetime(2026, 1, 1, tzinfo=UTC)
    now = missed_since + timedelta(days=365)
    each_second = EverySoOften(timedelta(seconds=1))
    assert each_second.get_next_fire_time(missed_since, now) == now + timedelta(seconds=1)


@pytest.mark.parametrize("moved", [timedelta(hours=-1), timedelta(hours=1), timedelta(days=365)])
def test_ticks_go_on_when_the_clock_is_moved(
    moved: timedelta, monkeypatch: pytest.MonkeyPatch
) -> None:
    machine = Machine(monkeypatch)
    ticks: list[float] = []

    async def run() -> None:
        scheduler = AsyncIOScheduler(
            timezone=UTC, job_defaults={"coalesce": True, "misfire_grace_time": None}
        )
        scheduler.add_job(
            lambda: ticks.append(time.monotonic()), EverySoOften(timedelta(seconds=0.05))
        )
        scheduler.start()
        watching = MovedClock()
        await asyncio.sleep(0.2)
        machine.ahead = moved
        await asyncio.sleep(0.1)
        watching.wake(scheduler)
        ticks.clear()
        await asyncio.sleep(0.5)
        scheduler.shutdown(wait=False)

    asyncio.run(run())

    assert 3 <= len(ticks) <= 12


def test_a_bell_whose_own_clock_is_years_behind_ticks_at_once(
    engine: Engine, monkeypatch: pytest.MonkeyPatch
) -> None:
    rung: list[datetime] = []

    def morning(_engine: Engine, now: datetime, *_: object) -> int:
        rung.append(now)
        return 0

    monkeypatch.setattr(ticking, "queue_some", morning)

    async def run() -> None:
        app = App(engine, {}, clock=lambda: LONG_AGO)
        job_scheduler = JobScheduler(app, Dispatcher(app, MessageHandler()))
        job_scheduler.start()
        async with asyncio.timeout(WAIT_AT_MOST_SECONDS):
            while not rung:
                await asyncio.sleep(0.01)
        await job_scheduler.stop()

    asyncio.run(run())

    assert rung[0] == LONG_AGO
