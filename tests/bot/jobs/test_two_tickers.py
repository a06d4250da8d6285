"""Several workers ring at the same moment: everybody's morning comes once."""

import logging

import pytest
from sqlalchemy import Engine

from bot.jobs.mornings import queue_mornings
from deploy.standins.at_once import at_once
from scheduling.records.crews import hold_crew
from scheduling.records.engine import writing
from tests.bot.jobs.crews import DAY, instant, keeper

AT = instant(DAY, 6, 30)


def test_three_tickers_bring_each_person_one_morning(
    engine: Engine, caplog: pytest.LogCaptureFixture
) -> None:
    people = [keeper(engine, f"Keeper {number}", str(number)) for number in range(30)]

    with caplog.at_level(logging.WARNING):
        rung = at_once(*[lambda: queue_mornings(engine, AT)] * 3)

    assert sum(rung) == 30
    assert [len(each.mornings()) for each in people] == [1] * 30
    assert caplog.records == []


def test_a_crew_that_writes_just_now_is_rung_by_the_next_tick(postgresql_engine: Engine) -> None:
    busy = keeper(postgresql_engine, "Ada", "11")
    free = keeper(postgresql_engine, "Milo", "12")
    with writing(postgresql_engine) as session:
        hold_crew(session, busy.crew_id)
        assert queue_mornings(postgresql_engine, AT) == 1
        assert (len(busy.mornings()), len(free.mornings())) == (0, 1)

    assert queue_mornings(postgresql_engine, AT) == 1
    assert len(busy.mornings()) == 1
