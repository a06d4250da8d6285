"""One stored job in APScheduler for each reminder, as one might begin, beside the tick."""

import time
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path
from tempfile import TemporaryDirectory
from threading import Event

from apscheduler.jobstores.sqlalchemy import SQLAlchemyJobStore
from apscheduler.schedulers.background import BackgroundScheduler
from sqlalchemy import Engine, insert, update

from bot.jobs.mornings import queue_mornings
from scheduling.records.crew_records import CrewRecords, found_crew
from scheduling.records.engine import open_engine, writing
from scheduling.records.migrate import migrate
from scheduling.records.tables import PersonRow

LATER = datetime(2100, 1, 1, tzinfo=UTC)

_fired = count(1)
"""A stored job can only name a function of a module, so its count is of the module too."""
_all_fired = Event()


def fire(wanted: int) -> None:
    """Count a job that ran; the pool's threads call it."""
    if next(_fired) % wanted == 0:
        _all_fired.set()


def jobs(number: int) -> dict[str, float]:
    """Measure adding, rescheduling and firing so many stored jobs, in seconds."""
    with TemporaryDirectory() as folder:
        store = SQLAlchemyJobStore(url=f"sqlite:///{Path(folder) / 'jobs.sqlite'}")
        scheduler = BackgroundScheduler(
            jobstores={"default": store},
            timezone="UTC",
            job_defaults={"misfire_grace_time": None},
        )
        scheduler.start(paused=True)
        names = [str(each) for each in range(number)]
        took = {
            "add": _timed(
                lambda: [
                    scheduler.add_job(fire, "date", run_date=LATER, id=name, args=[number])
                    for name in names
                ]
            )
        }
        now = datetime.now(UTC)
        took["reschedule"] = _timed(
            lambda: [scheduler.reschedule_job(name, trigger="date", run_date=now) for name in names]
        )
        took["fire"] = _timed(lambda: _run_all(scheduler))
        scheduler.shutdown()
    return took


def ticks(number: int) -> dict[str, float]:
    """Measure the same with a row for each person and the tick of mornings, in seconds."""
    now = datetime.now(UTC)
    with TemporaryDirectory() as folder:
        engine = open_engine(f"sqlite:///{Path(folder) / 'bees.sqlite'}")
        migrate(engine)
        with writing(engine) as session:
            crew, _ = found_crew(session, "Many", "Owner", "UTC", now)
            CrewRecords(session, crew.id).add_yard("River", "UTC")
        took = {"add": _timed(lambda: _add(engine, number))}
        took["reschedule"] = _timed(lambda: _reschedule(engine, now - timedelta(seconds=1)))
        took["fire"] = _timed(lambda: queue_mornings(engine, now))
        engine.dispose()
    return took


def _run_all(scheduler: BackgroundScheduler) -> None:
    _all_fired.clear()
    scheduler.resume()
    _all_fired.wait()
    # A job leaves its store only after it was given to a thread.
    while scheduler.get_jobs():
        time.sleep(0.01)


def _add(engine: Engine, number: int) -> None:
    with writing(engine) as session:
        owner = session.get_one(PersonRow, 1)
        shared = {
            column.key: getattr(owner, column.key)
            for column in PersonRow.__table__.columns
            if column.key not in {"id", "name", "name_folded", "next_morning_at"}
        }
        rows = [
            {**shared, "name": f"P{n}", "name_folded": f"p{n}", "next_morning_at": LATER}
            for n in range(number)
        ]
        session.execute(insert(PersonRow), rows)


def _reschedule(engine: Engine, at: datetime) -> None:
    with writing(engine) as session:
        session.execute(update(PersonRow).values(next_morning_at=at))


def _timed(work: Callable[[], object]) -> float:
    began = time.perf_counter()
    work()
    return time.perf_counter() - began


def delivery(number: int) -> None:
    """Measure and print."""
    naive, ours = jobs(number), ticks(number)
    print(f"{number} reminders in SQLite, seconds (the tick finds nobody with anything due)\n")
    print(f"{'':<12} {'a job for each':>15} {'a row and a tick':>17}")
    for what, seconds in naive.items():
        print(f"{what:<12} {seconds:>15.2f} {ours[what]:>17.2f}")
