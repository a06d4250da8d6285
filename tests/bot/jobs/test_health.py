"""A process is well while it ticks and reaches its database."""

from datetime import UTC, datetime, timedelta

from sqlalchemy import Engine

from bot.jobs.health import TICKED_WITHIN, health
from bot.monitoring import beat, tick_name
from scheduling.records.engine import open_engine

NOW = datetime(2027, 5, 12, 6, 30, tzinfo=UTC)


def test_a_process_that_ticks_is_well(engine: Engine) -> None:
    beat(tick_name("watch"), NOW - TICKED_WITHIN)

    assert health(engine, NOW) == {"ok": True, "ticks": True, "database": True, "silent": []}


def test_a_process_that_no_longer_ticks_is_not(engine: Engine) -> None:
    beat(tick_name("watch"), NOW - TICKED_WITHIN - timedelta(seconds=1))

    assert health(engine, NOW) == {"ok": False, "ticks": False, "database": True, "silent": []}


def test_a_process_that_does_not_reach_its_database_is_not(blank: str) -> None:
    beat(tick_name("watch"), NOW)
    engine = open_engine(blank)

    assert health(engine, NOW) == {"ok": False, "ticks": True, "database": False, "silent": []}
    engine.dispose()
