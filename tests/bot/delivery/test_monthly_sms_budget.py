"""At the owner's ceiling for a month's texts only mornings go by text; the owner hears before."""

import asyncio
from collections.abc import Sequence
from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy import Engine, delete, select

from bot.channels.channel import OutgoingMessage, Receive, SendOutcome, SendResult
from bot.channels.sms.segments import segments
from bot.channels.traits import SMS, traits_of
from bot.delivery import outbox
from bot.delivery.claims import claim
from bot.delivery.message_tables import OutboxRow
from bot.delivery.outbox import Recipient, complete
from bot.delivery.rules import OutboxState, Purpose
from bot.delivery.sender import Sender
from bot.delivery.sms_budget import (
    SmsBudget,
    month_of,
    next_month,
    tell_of_sms_budget,
    used_in_month,
)
from bot.wording.alerts import no_answers_by_text, texts_nearly_used_up, texts_used_up
from scheduling.records.crew_records import CrewRecords, found_crew
from scheduling.records.engine import reading, writing
from scheduling.records.numbers import ask_number
from scheduling.records.tables import AddressRow, Role

NOW = datetime(2027, 5, 12, 17, 0, tzinfo=UTC)
FIRST_OF_JUNE = datetime(2027, 6, 1, tzinfo=UTC)
JUNE = FIRST_OF_JUNE.date()
ADA, MILO, STRANGER = "+12025550111", "+12025550122", "+12025550133"
TWO_SEGMENTS = "e" * 161
"""3GPP TS 23.040, 9.2.3.24: 160 septets go into one message."""


class Line:
    """A channel that takes everything; what it took stands in ``taken``."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.traits = traits_of(name)
        self.taken: list[tuple[str, str]] = []

    async def listen(self, receive: Receive) -> None:
        """Nothing comes in by itself."""

    async def send(self, outgoing: OutgoingMessage) -> SendOutcome:
        self.taken.append((outgoing.address, outgoing.text))
        return SendOutcome(SendResult.SENT)

    async def close(self) -> None:
        pass


@pytest.fixture
def crew(engine: Engine) -> Engine:
    """Ada owns the crew and has texts and Telegram; Milo has texts alone."""
    with writing(engine) as session:
        crew, ada = found_crew(session, "Ada's crew", "Ada", "UTC", NOW)
        records = CrewRecords(session, crew.id)
        milo = records.add_person(name="Milo", role=Role.KEEPER, zone="UTC", now=NOW)
        records.add_address(ada.id, SMS.name, ADA)
        records.add_address(ada.id, "telegram", "11")
        records.add_address(milo.id, SMS.name, MILO)
    return engine


def put(engine: Engine, text: str, purpose: Purpose, address: str = MILO, person: int = 2) -> None:
    to = Recipient(SMS.name, address, person or None)
    with writing(engine) as session:
        assert outbox.plan(session, text, purpose, to, OutgoingMessage(address, text), NOW)


def send(engine: Engine, sms_budget: int | None, now: datetime = NOW) -> tuple[Line, Line]:
    """Send all there is; gives the line of texts and Telegram's."""
    texts, chat = Line(SMS.name), Line("telegram")
    of_month = None if sms_budget is None else SmsBudget(sms_budget)
    channels = {line.name: line for line in (texts, chat)}
    sender = Sender(engine, channels, lambda: now, {}, of_month)
    asyncio.run(sender.round())
    return texts, chat


def use_two(engine: Engine) -> None:
    put(engine, TWO_SEGMENTS, Purpose.MORNING)
    send(engine, sms_budget=None)


def state(engine: Engine, key: str) -> tuple[str, str | None]:
    with reading(engine) as session:
        row = session.scalars(select(OutboxRow).where(OutboxRow.key == key)).one()
        return row.state, row.error


def test_below_the_ceiling_answers_go_and_at_it_none(crew: Engine) -> None:
    put(crew, TWO_SEGMENTS, Purpose.ANSWER)
    put(crew, "one more", Purpose.ANSWER)

    texts, _ = send(crew, sms_budget=2)

    assert [text for _, text in texts.taken] == [TWO_SEGMENTS]
    assert state(crew, "one more") == (OutboxState.FAILED, "used up")
    assert segments(TWO_SEGMENTS) == 2


@pytest.mark.parametrize(
    "purpose", [Purpose.MORNING, Purpose.CAUTION, Purpose.FIRST_CAUTION, Purpose.FAREWELL]
)
def test_at_the_ceiling_a_morning_goes_and_what_must_come_with_it(
    crew: Engine, purpose: Purpose
) -> None:
    put(crew, TWO_SEGMENTS, Purpose.MORNING)
    put(crew, "the last", purpose)

    texts, _ = send(crew, sms_budget=1)

    assert {text for _, text in texts.taken} == {TWO_SEGMENTS, "the last"}


def test_without_a_ceiling_everything_goes(crew: Engine) -> None:
    put(crew, TWO_SEGMENTS, Purpose.ANSWER)
    put(crew, "one more", Purpose.ANSWER)

    assert len(send(crew, sms_budget=None)[0].taken) == 2


def test_a_new_month_begins_with_none_used(crew: Engine) -> None:
    put(crew, TWO_SEGMENTS, Purpose.MORNING)
    send(crew, sms_budget=2, now=FIRST_OF_JUNE - timedelta(seconds=1))
    put(crew, "eggs noted", Purpose.ANSWER)

    texts, _ = send(crew, sms_budget=2, now=FIRST_OF_JUNE)

    assert texts.taken == [(MILO, "eggs noted")]


def test_what_is_held_back_goes_over_the_persons_other_channel(crew: Engine) -> None:
    use_two(crew)
    put(crew, "4b eggs noted", Purpose.ANSWER, address=ADA, person=1)

    texts, chat = send(crew, sms_budget=2)

    assert (ADA, "4b eggs noted") not in texts.taken
    assert chat.taken == [("11", "4b eggs noted")]


def test_one_who_cannot_be_asked_is_told_of_to_who_asked(crew: Engine) -> None:
    use_two(crew)
    with writing(crew) as session:
        ada = CrewRecords(session, 1).person(1)
        ask_number(session, ada, SMS.name, STRANGER, NOW, name="Noor")
    put(crew, "Ada asks", Purpose.INVITE, address=STRANGER, person=0)

    _, chat = send(crew, sms_budget=2)

    assert chat.taken == [("11", "My question did not reach Noor: this month's texts are used up.")]


def told(engine: Engine, sms_budget: int, now: datetime, running: Sequence[str]) -> list[str]:
    with writing(engine) as session:
        tell_of_sms_budget(session, now, SmsBudget(sms_budget), running)
    alerts = select(OutboxRow).where(OutboxRow.purpose == Purpose.ALERT).order_by(OutboxRow.id)
    with reading(engine) as session:
        return [f"{row.channel} {row.text}" for row in session.scalars(alerts)]


def test_the_owner_is_told_near_the_ceiling_and_at_it_once_each(crew: Engine) -> None:
    both = ("sms", "telegram")
    put(crew, "e" * 153 * 4, Purpose.MORNING)
    send(crew, sms_budget=None)

    assert told(crew, 6, NOW, both) == []
    assert told(crew, 5, NOW, both) == ["telegram " + texts_nearly_used_up(4, 5, JUNE)]
    put(crew, TWO_SEGMENTS, Purpose.MORNING)
    send(crew, sms_budget=None)
    for _ in range(2):
        assert told(crew, 5, NOW, both)[1:] == ["telegram " + texts_used_up(6, 5, JUNE)]
    assert len(told(crew, 5, FIRST_OF_JUNE, both)) == 2


def test_an_owner_with_texts_alone_is_warned_by_text_while_texts_go(crew: Engine) -> None:
    with writing(crew) as session:
        session.execute(delete(AddressRow).where(AddressRow.channel == "telegram"))
    put(crew, "e" * 153 * 4, Purpose.MORNING)
    send(crew, sms_budget=None)

    assert told(crew, 4, NOW, ("sms",)) == []
    assert told(crew, 5, NOW, ("sms",)) == ["sms " + texts_nearly_used_up(4, 5, JUNE)]


def test_months_are_those_of_utc() -> None:
    late = datetime(2027, 12, 31, 23, 59, tzinfo=UTC)
    assert month_of(late) == datetime(2027, 12, 1, tzinfo=UTC)
    assert next_month(late) == datetime(2028, 1, 1, tzinfo=UTC)
    assert next_month(NOW) == FIRST_OF_JUNE


def test_a_text_refused_by_the_carrier_uses_nothing(crew: Engine) -> None:
    put(crew, "never went", Purpose.ANSWER)
    with writing(crew) as session:
        (claimed,) = claim(session, [SMS.name], NOW)
        complete(session, claimed, SendOutcome(SendResult.REFUSED), NOW)
        assert used_in_month(session, NOW) == 0


def test_the_words() -> None:
    said = [
        texts_nearly_used_up(812, 1000, JUNE),
        texts_used_up(1002, 1000, JUNE),
        no_answers_by_text(JUNE),
    ]
    assert said == [
        "812 of this month's 1,000 text segments are used. At 1,000 only mornings go by text "
        "until Tue 1 Jun.",
        "This month's 1,000 text segments are used up (1,002 sent). Until Tue 1 Jun only mornings "
        "go by text. What people text is noted, but not answered by text.",
        "This month's texts are used up: replies are noted, answers come again Tue 1 Jun.",
    ]
    assert all(segments(text) <= 2 for text in said)
