"""A tick with nothing due looks into an index and not at people or messages, however many."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import pytest
from sqlalchemy import Engine, event, text

from bot.delivery.claims import claim
from bot.delivery.silent_channels import silent_since
from bot.jobs.mornings import queue_some
from bot.jobs.ready_mornings import make_some_ready
from bot.monitoring import running_name, sent_name
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import reading, writing
from scheduling.records.weather_asked import claim_yards
from scheduling.records.weather_days import make_days_anew
from tests.bot.delivery.counter import Counter, after
from tests.bot.jobs.crews import DAY, instant, keeper

Asked = list[tuple[str, Any]]


@contextmanager
def asked(engine: Engine) -> Iterator[Asked]:
    """The statements that the block runs, with their values."""
    statements: Asked = []

    def note(_c: Any, _cursor: Any, statement: str, values: Any, *_: Any) -> None:
        if statement.startswith("SELECT"):
            statements.append((statement, values))

    event.listen(engine, "before_cursor_execute", note)
    yield statements
    event.remove(engine, "before_cursor_execute", note)


def plans(engine: Engine, statements: Asked) -> list[str]:
    """How the database would carry each statement out."""
    explain = "EXPLAIN QUERY PLAN " if engine.dialect.name == "sqlite" else "EXPLAIN "
    with engine.connect() as connection:
        if engine.dialect.name == "postgresql":
            # With few rows a scan is cheaper; what matters is that the index can serve.
            connection.execute(text("SET enable_seqscan = off"))
        return [
            "\n".join(str(row) for row in connection.exec_driver_sql(explain + statement, values))
            for statement, values in statements
        ]


@pytest.fixture
def filled(engine: Engine) -> Engine:
    """Somebody whose morning is to come, somebody who stopped, and a message sent long ago."""
    ada = keeper(engine, "Ada", "11")
    with writing(engine) as session:
        CrewRecords(session, ada.crew_id).set_location("River", 41.3, -92.6)
        claim_yards(session, instant(DAY, 0), instant(DAY, 3), 1)
    stopped = keeper(engine, "Milo", "12", cells=False, next_at=instant(DAY, 1))
    stopped.update({"stopped": True})
    Counter(engine).plan("a", at=3600)
    return engine


def test_the_morning_tick_uses_the_index_of_those_who_did_not_stop(filled: Engine) -> None:
    with asked(filled) as statements:
        assert queue_some(filled, instant(DAY, 2)) == 0

    (plan,) = plans(filled, statements)
    assert "ix_person_next_morning_at" in plan
    assert "SCAN person" not in plan
    assert "Seq Scan on person" not in plan


def test_making_mornings_ready_uses_the_index_of_those_not_ready(filled: Engine) -> None:
    with asked(filled) as statements:
        assert make_some_ready(filled, instant(DAY, 2)) == 0

    (plan,) = plans(filled, statements)
    assert "ix_person_not_ready" in plan
    assert "SCAN person" not in plan
    assert "Seq Scan on person" not in plan


def test_the_outbox_tick_uses_an_index_for_each_question(filled: Engine) -> None:
    with asked(filled) as statements, writing(filled) as session:
        assert claim(session, ["phone"], after(0)) == []

    last_use, no_more, leases, planned = plans(filled, statements)
    assert "ix_outbox_last_use" in last_use
    assert "ix_outbox_leases" in no_more
    assert "ix_outbox_leases" in leases
    assert "ix_outbox_planned" in planned
    assert "ix_outbox_open_of_address" in planned


def test_the_weather_tick_uses_the_index_and_looks_at_no_yard(filled: Engine) -> None:
    with asked(filled) as statements, writing(filled) as session:
        assert claim_yards(session, instant(DAY, 2), instant(DAY, 3), 1) == ()

    *_, plan = plans(filled, statements)
    assert "ix_weather_asked_next_at" in plan
    assert "SCAN" not in plan
    assert "Seq Scan" not in plan


def test_the_watch_tick_looks_at_no_message_that_was_sent(filled: Engine) -> None:
    beats = {running_name("phone"): instant(DAY, 2), sent_name("phone"): instant(DAY, 2)}
    with asked(filled) as statements, reading(filled) as session:
        assert silent_since(session, instant(DAY, 2), beats) == {}

    waiting, in_doubt = plans(filled, statements)
    assert "ix_outbox_open_of_address" in waiting
    assert "ix_outbox_in_doubt" in in_doubt


def test_a_yard_that_was_never_answered_for_has_no_days_to_make_anew(filled: Engine) -> None:
    with asked(filled) as statements:
        assert make_days_anew(filled, lambda: True) == 0

    for plan in plans(filled, statements):
        assert "ix_weather_asked_figures" in plan
        assert "SCAN" not in plan
        assert "Seq Scan" not in plan
