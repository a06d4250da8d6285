"""What texts cost: segments by person and month, as the carrier charges them."""

from datetime import UTC, date, datetime
from decimal import Decimal

import pytest
from sqlalchemy import Engine

from bot.channels.channel import OutgoingMessage, SendOutcome, SendResult
from bot.command.status import TextsPaid, for_machine, for_person
from bot.delivery import outbox
from bot.delivery.claims import claim
from bot.delivery.outbox import Recipient, complete
from bot.delivery.rules import Purpose
from bot.web.program_status import Status, TextsSent, status_of
from scheduling.records.crew_records import CrewRecords, found_crew
from scheduling.records.engine import reading, writing
from scheduling.records.tables import Role

NOW = datetime(2027, 5, 12, 18, 0, tzinfo=UTC)
ADA, MILO = "+12025550111", "+12025550122"
TWO_SEGMENTS = "e" * 161
"""3GPP TS 23.040, 9.2.3.24: 160 septets go into one message."""


@pytest.fixture
def crew(engine: Engine) -> Engine:
    """Ada and Milo, who both read their mornings as texts."""
    with writing(engine) as session:
        crew, ada = found_crew(session, "Ada's crew", "Ada", "America/Chicago", NOW)
        milo = CrewRecords(session, crew.id).add_person(
            name="Milo", role=Role.KEEPER, zone="America/Chicago", now=NOW
        )
        assert (ada.id, milo.id) == (1, 2)
    return engine


def send(
    engine: Engine,
    to: Recipient,
    text: str,
    at: datetime = NOW,
    result: SendResult = SendResult.SENT,
) -> None:
    """Plan a text and send it at once."""
    key = f"{to.address}:{at:%FT%T}"
    with writing(engine) as session:
        outbox.plan(session, key, Purpose.FAREWELL, to, OutgoingMessage(to.address, text), at)
        (claimed,) = claim(session, [to.channel], at)
        complete(session, claimed, SendOutcome(result), at)


def status(engine: Engine, now: datetime = NOW) -> Status:
    with reading(engine) as session:
        return status_of(session, now)


def test_segments_are_counted_by_person_and_month(crew: Engine) -> None:
    send(crew, Recipient("sms", ADA, 1), TWO_SEGMENTS, datetime(2027, 4, 20, 18, tzinfo=UTC))
    send(crew, Recipient("sms", ADA, 1), "eggs due", datetime(2027, 5, 2, 18, tzinfo=UTC))
    send(crew, Recipient("sms", ADA, 1), TWO_SEGMENTS)
    send(crew, Recipient("sms", MILO, 2), "eggs due")
    send(crew, Recipient("sms", "+12025550133"), "eggs due")

    may, april = date(2027, 5, 1), date(2027, 4, 1)
    assert status(crew).texts == (
        TextsSent(0, "", may, 1),
        TextsSent(1, "Ada", may, 3),
        TextsSent(2, "Milo", may, 1),
        TextsSent(1, "Ada", april, 2),
    )


def test_the_month_is_that_of_the_persons_own_day(crew: Engine) -> None:
    late_evening_of_april_there = datetime(2027, 5, 1, 3, tzinfo=UTC)
    send(crew, Recipient("sms", ADA, 1), "eggs due", late_evening_of_april_there)

    assert status(crew).texts == (TextsSent(1, "Ada", date(2027, 4, 1), 1),)


def test_older_months_other_channels_and_refused_texts_are_left_out(crew: Engine) -> None:
    send(crew, Recipient("sms", ADA, 1), "eggs due", datetime(2027, 3, 30, 18, tzinfo=UTC))
    send(crew, Recipient("telegram", "11", 1), "eggs due")
    send(crew, Recipient("sms", MILO, 2), "eggs due", result=SendResult.REFUSED)

    assert status(crew).texts == ()


def test_a_text_in_doubt_was_most_likely_charged(crew: Engine) -> None:
    send(crew, Recipient("sms", ADA, 1), "eggs due", result=SendResult.UNKNOWN)

    assert [sent.segments for sent in status(crew).texts] == [1]


def test_a_person_reads_the_count_and_with_a_price_the_cost(crew: Engine) -> None:
    send(crew, Recipient("sms", ADA, 1), TWO_SEGMENTS)
    send(crew, Recipient("sms", "+12025550133"), "eggs due")

    def line(price: Decimal | None) -> str:
        lines = for_person(status(crew), "2027a", "0009", "sqlite", TextsPaid(price))
        return next(each for each in lines if each.startswith("texts"))

    assert line(None) == "texts      May 2027 3 segments: others 1, Ada 2"
    assert line(Decimal("0.0079")) == (
        "texts      May 2027 3 segments, 0.02 at 0.0079 each: others 1, Ada 2"
    )


def test_with_a_budget_a_person_reads_how_much_of_it_is_used(crew: Engine) -> None:
    send(crew, Recipient("sms", ADA, 1), TWO_SEGMENTS)

    lines = for_person(status(crew), "2027a", "0009", "sqlite", TextsPaid(most=1500))

    assert "texts      2 of 1,500 segments this month (UTC)" in list(lines)


def test_a_machine_reads_the_exact_cost(crew: Engine) -> None:
    send(crew, Recipient("sms", ADA, 1), TWO_SEGMENTS)

    found = for_machine(status(crew), "2027a", "0009", "sqlite", TextsPaid(Decimal("0.0079")))

    assert found["texts"] == [
        {"person": 1, "month": "2027-05", "segments": 2, "cost": "0.0158"},
    ]
    assert found["texts_this_month"] == {"used": 2, "most": None}
