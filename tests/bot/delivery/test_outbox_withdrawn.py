"""Who stopped their messages gets none that was planned before."""

import pytest
from sqlalchemy import Engine

from bot.channels.channel import SendResult
from bot.delivery.outbox import withdraw
from bot.delivery.rules import Purpose
from scheduling.records.crew_records import CrewRecords
from scheduling.records.crews import add_crew
from scheduling.records.engine import writing
from tests.bot.delivery.counter import NOW, Counter


@pytest.fixture
def ada(engine: Engine) -> int:
    """A person's number."""
    with writing(engine) as session:
        records = CrewRecords(session, add_crew(session, "Ada's crew").id)
        return records.add_person("Ada", zone="UTC", now=NOW).id


def test_a_morning_that_waits_to_be_tried_again_is_withdrawn(counter: Counter, ada: int) -> None:
    counter.plan("morning", purpose=Purpose.MORNING, person_id=ada)
    counter.send(SendResult.LATER)
    with writing(counter.engine) as session:
        withdraw(session, ada, NOW)

    assert counter.state("morning") == "expired"
    assert counter.claim(100) == []


@pytest.mark.parametrize("purpose", [Purpose.ANSWER, Purpose.CAUTION])
def test_answers_and_the_caution_are_not(counter: Counter, ada: int, purpose: Purpose) -> None:
    counter.plan("a", purpose=purpose, person_id=ada)
    with writing(counter.engine) as session:
        withdraw(session, ada, NOW)

    assert counter.claimed_texts() == ["a"]


def test_nobody_elses_messages_are(counter: Counter, ada: int) -> None:
    counter.plan("of a newcomer", purpose=Purpose.NEWS)
    with writing(counter.engine) as session:
        withdraw(session, ada, NOW)

    assert counter.claimed_texts() == ["of a newcomer"]
