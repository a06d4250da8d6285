"""Who stopped their messages gets none that was planned before."""

import pytest
from sqlalchemy import Engine

from bot.channels.channel import SendResult
from bot.delivery.outbox import withdraw
from bot.delivery.rules import Purpose
from scheduling.records.crew_records import CrewRecords
from scheduling.records.crews import add_crew
from scheduling.records.engine import writing
from scheduling.records.tables import PersonRow
from tests.bot.delivery.counter import NOW, Counter


@pytest.fixture
def ada(engine: Engine) -> int:
    """The number of a person at the address 11."""
    with writing(engine) as session:
        records = CrewRecords(session, add_crew(session, "Ada's crew").id)
        ada = records.add_person("Ada", zone="UTC", now=NOW)
        records.add_address(ada.id, "phone", "11")
    return ada.id


def test_a_morning_that_waits_to_be_tried_again_is_withdrawn(counter: Counter, ada: int) -> None:
    counter.plan("morning", purpose=Purpose.MORNING, person_id=ada)
    counter.send(SendResult.LATER)
    with writing(counter.engine) as session:
        withdraw(session, ada, NOW)

    assert counter.state("morning") == "expired"
    assert counter.claim(100) == []


@pytest.mark.parametrize("purpose", [Purpose.MORNING, Purpose.NEWS, Purpose.ALERT])
@pytest.mark.parametrize("stopped", [False, True], ids=["withdrawn", "stopped since"])
def test_whatever_was_not_asked_for_is(
    counter: Counter, ada: int, purpose: Purpose, stopped: bool
) -> None:
    counter.plan("a", purpose=purpose, person_id=ada)
    with writing(counter.engine) as session:
        if stopped:
            session.get_one(PersonRow, ada).stopped = True
        else:
            withdraw(session, ada, NOW)

    assert counter.claim() == []
    assert counter.state("a") == "expired"


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
