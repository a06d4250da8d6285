"""What the ticks cost when nothing is due, with few people in the database and with very many."""

import asyncio
import time
from collections.abc import Awaitable, Callable, Mapping
from datetime import UTC, date, datetime, timedelta
from statistics import median

from sqlalchemy import Engine, update

from bot.channels.channel import IncomingMessage, OutgoingMessage
from bot.channels.console import ConsoleChannel
from bot.channels.traits import TELEGRAM
from bot.conversation.message_handler import MessageHandler
from bot.delivery import inbox
from bot.delivery.dispatcher import App, Dispatcher
from bot.delivery.message_tables import InboxRow, OutboxRow
from bot.delivery.outbox import Recipient, plan
from bot.delivery.rules import OutboxState, Purpose
from bot.jobs.job_scheduler import JobScheduler
from bot.monitoring import running_name, sent_name, write_beats
from deploy.benchmark.copied_crews import copy_of_each, gather_statistics
from deploy.standins.databases import KINDS, make_tables, new_database
from scheduling.records.crew_records import CrewRecords, found_crew
from scheduling.records.engine import open_engine, writing
from scheduling.records.tables import AddressRow, Base, CrewRow, PersonRow, YardRow, table_of
from scheduling.records.weather_asked import claim_yards
from scheduling.records.weather_days import WeatherAskedRow
from scheduling.weather.hour import HourOfWeather

NOW = datetime(2027, 6, 9, 12, tzinfo=UTC)
TICKS = 30
"""Each tick's middle is given."""
TICKING = ("mornings", "outbox", "weather", "housekeeping", "watch")

_OFFSETS: Mapping[type[Base], Mapping[str, int]] = {
    CrewRow: {"id": 1},
    YardRow: {"id": 1, "crew_id": 1},
    PersonRow: {"id": 1, "crew_id": 1},
    AddressRow: {"id": 1, "person_id": 1, "address": 1},
    WeatherAskedRow: {"yard_id": 1},
    OutboxRow: {"key": 1, "person_id": 1, "address": 1},
    InboxRow: {"message_id": 1, "address": 1},
}


class NoWeather:
    """A source that is asked for no yard, since none is due."""

    def hours(
        self, _latitude: float, _longitude: float, _first: date, _last: date
    ) -> list[HourOfWeather]:
        """Fail, because whoever is asked was not idle."""
        raise AssertionError("a yard was due")

    def close(self) -> None:
        """Let go of nothing."""


def fill(engine: Engine, people: int) -> None:
    """Make crews of one owner with a yard, a morning to come, and a message in and out."""
    with writing(engine) as session:
        crew, owner = found_crew(session, "Crew", "ida", "UTC", NOW)
        records = CrewRecords(session, crew.id)
        records.add_address(owner.id, TELEGRAM.name, "1")
        records.add_yard("River", "UTC", latitude=41.3, longitude=-92.6)
        tomorrow = NOW + timedelta(hours=18)
        records.update_person(owner.id, cautioned_on=NOW.date(), next_morning_at=tomorrow)
        write_beats(session, {running_name(TELEGRAM.name): NOW, sent_name(TELEGRAM.name): NOW})
        claim_yards(session, NOW, NOW + timedelta(hours=3), 1)
        told = OutgoingMessage("1", "Nothing due today.")
        plan(session, "1", Purpose.MORNING, Recipient(TELEGRAM.name, "1", owner.id), told, NOW)
        inbox.accept(session, IncomingMessage(TELEGRAM.name, "1", "1", "due", NOW, "ida"), NOW)
    with engine.begin() as connection:
        sent = {"state": OutboxState.CLAIMED}
        connection.execute(update(OutboxRow).values(**sent))
        connection.execute(update(OutboxRow).values(state=OutboxState.SENT, ended_at=NOW))
        connection.execute(update(InboxRow).values(state=inbox.InboxState.DONE))
        for kind, offsets in _OFFSETS.items():
            copy_of_each(connection, table_of(kind), offsets, 1, people)
    gather_statistics(engine)


def ticks(url: str, people: int) -> dict[str, tuple[float, float]]:
    """Measure each tick: milliseconds by the clock, and of the processor."""
    make_tables(url)
    engine = open_engine(url)
    fill(engine, people)
    # Nothing is due, so that the channel is asked to send nothing.
    app = App(engine, {TELEGRAM.name: ConsoleChannel()}, weather=NoWeather(), clock=lambda: NOW)
    dispatcher = Dispatcher(app, MessageHandler())
    job_scheduler = JobScheduler(app, dispatcher)
    work = (
        job_scheduler.mornings,
        dispatcher.deliver,
        job_scheduler.weather,
        job_scheduler.housekeeping,
        job_scheduler.watch,
    )
    found = {name: asyncio.run(_timed(each)) for name, each in zip(TICKING, work, strict=True)}
    engine.dispose()
    return found


async def _timed(work: Callable[[], Awaitable[None]]) -> tuple[float, float]:
    await work()
    each = []
    for _ in range(TICKS):
        wall, processor = time.perf_counter(), time.process_time()
        await work()
        each.append((time.perf_counter() - wall, time.process_time() - processor))
    walls, processors = zip(*each, strict=True)
    return median(walls) * 1e3, median(processors) * 1e3


def idle(*people: int) -> None:
    """Measure and print."""
    print(f"Ticks with nothing due, the middle of {TICKS}: milliseconds, and of the processor\n")
    print(f"{'database':<11} {'people':>9}", end="")
    print("".join(f" {name:>19}" for name in TICKING))
    for kind in KINDS:
        for number in people:
            with new_database(kind) as url:
                found = ticks(url, number)
            row = "".join(f" {wall:>10.2f} {cpu:>8.2f}" for wall, cpu in found.values())
            print(f"{kind:<11} {number:>9}{row}", flush=True)
