"""The weather tick asks for every yard that is due, and for none once the jobs stop."""

import asyncio
from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta

import pytest
from sqlalchemy import Engine

from bot.conversation.message_handler import MessageHandler
from bot.delivery.dispatcher import App, Dispatcher
from bot.jobs.job_scheduler import JobScheduler
from bot.weather.open_meteo import OpenMeteo
from deploy.standins.weather_standin import WeatherStandin, hourly, running_service, says
from scheduling.records.crew_records import CrewRecords, found_crew
from scheduling.records.engine import reading, writing


def now() -> datetime:
    return datetime.now(UTC)


@pytest.fixture
def service() -> Iterator[WeatherStandin]:
    """A service that tells of three fine days from yesterday on."""
    with running_service() as service:
        midnight = datetime.combine(now().date() - timedelta(days=1), datetime.min.time(), UTC)
        service.answers = [says(hourly(midnight, 72))]
        yield service


def tick(engine: Engine, source: OpenMeteo | None) -> None:
    app = App(engine, {}, weather=source, clock=now)
    job_scheduler = JobScheduler(app, Dispatcher(app, MessageHandler()))
    asyncio.run(job_scheduler.weather())


def test_every_yard_with_a_place_has_its_weather_after_a_tick(
    engine: Engine, service: WeatherStandin
) -> None:
    with writing(engine) as session:
        crew, _ = found_crew(session, "Crew", "Ada", "UTC", now())
        records = CrewRecords(session, crew.id)
        records.add_yard("River", "UTC", latitude=41.3, longitude=-92.6)
        records.add_yard("Ridge", "UTC", latitude=35.4, longitude=-85.0)
        records.add_yard("Nowhere", "UTC")
    source = OpenMeteo(service.url, pause=lambda _seconds: None)
    tick(engine, source)
    source.close()
    with reading(engine) as session:
        weather = CrewRecords(session, crew.id).weather(date(2020, 1, 1))
    assert weather.keys() == {"River", "Ridge"}
    assert len(service.asked) == 2


def test_without_a_source_nobody_is_asked(engine: Engine) -> None:
    tick(engine, None)
