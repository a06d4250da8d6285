"""What is done is kept for a while and then deleted; what is still needed is not, nor the log."""

from datetime import timedelta

import pytest
from pydantic import SecretStr
from sqlalchemy import Engine, func, insert, select, text

from bot.channels.channel import IncomingMessage, SendResult
from bot.channels.reports import Delivery, DeliveryReport
from bot.delivery import inbox, pruning
from bot.delivery.delivery_reports import note_report
from bot.delivery.inbox import InboxState
from bot.delivery.message_tables import DeliveryRow, InboxRow, OutboxRow
from bot.delivery.pruning import AT_ONCE, KEPT, prune
from bot.delivery.rules import Purpose
from bot.serving import app_of
from bot.settings.settings import Settings, TelegramSettings, WeatherSettings
from scheduling.records.engine import reading, writing
from scheduling.records.number_tables import StrangerRow
from scheduling.records.numbers import may_answer, refuse
from scheduling.records.tables import Base, EntryRow, table_of
from tests.bot.delivery.counter import NOW, Counter
from tests.bot.jobs.crews import keeper

DAY = timedelta(days=1)
LATER = NOW + KEPT


@pytest.fixture(autouse=True)
def _no_rest(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pruning, "sleep", lambda _seconds: None)


def keys(engine: Engine) -> set[str]:
    with reading(engine) as session:
        return set(session.scalars(select(OutboxRow.key)))


def rows(engine: Engine, kind: type[Base]) -> int:
    with reading(engine) as session:
        return session.scalar(select(func.count()).select_from(kind)) or 0


@pytest.mark.parametrize("result", [SendResult.SENT, SendResult.REFUSED, SendResult.UNREACHABLE])
def test_a_message_out_is_kept_for_ninety_days_after_it_ended(
    counter: Counter, result: SendResult
) -> None:
    counter.plan("a")
    counter.send(result)
    prune(counter.engine, LATER)
    assert keys(counter.engine) == {"a"}

    assert prune(counter.engine, LATER + timedelta(seconds=1)) == 1
    assert keys(counter.engine) == set()


def test_one_whose_end_nobody_knows_and_one_past_its_use_go_too(counter: Counter) -> None:
    counter.plan("in doubt", purpose=Purpose.NEWS)
    counter.send(SendResult.UNKNOWN)
    counter.plan("past", to="12", useful_for=1)
    assert counter.claim(at=2) == []
    prune(counter.engine, LATER + DAY)

    assert keys(counter.engine) == set()


def test_what_waits_is_never_deleted_however_long_it_has(counter: Counter) -> None:
    counter.plan("planned", to="12")
    counter.plan("claimed", to="11")
    with writing(counter.engine) as session:
        session.execute(text("UPDATE outbox SET state = 'claimed' WHERE key = 'claimed'"))
    prune(counter.engine, NOW + 10 * KEPT)

    assert keys(counter.engine) == {"planned", "claimed"}


def test_reports_of_delivery_are_kept_as_long(engine: Engine) -> None:
    with writing(engine) as session:
        note_report(session, DeliveryReport("sms", "SM1", Delivery.DELIVERED, NOW))
    prune(engine, LATER)
    assert rows(engine, DeliveryRow) == 1

    prune(engine, LATER + DAY)
    assert rows(engine, DeliveryRow) == 0


def test_a_number_that_wrote_once_is_forgotten_and_one_that_wants_silence_never(
    engine: Engine,
) -> None:
    with writing(engine) as session:
        for number in ("+12025550101", "+12025550102"):
            assert may_answer(session, "sms", number, NOW)
        refuse(session, "sms", "+12025550102", NOW)
    prune(engine, LATER)
    assert rows(engine, StrangerRow) == 2

    prune(engine, LATER + DAY)
    with reading(engine) as session:
        (left,) = session.scalars(select(StrangerRow))
        assert (left.address, left.refused_at) == ("+12025550102", NOW)


@pytest.mark.parametrize(("state", "kept"), [(InboxState.SET_ASIDE, 0), (InboxState.WAITING, 1)])
def test_a_message_that_was_set_aside_is_forgotten_and_one_that_waits_is_not(
    engine: Engine, state: InboxState, kept: int
) -> None:
    with writing(engine) as session:
        inbox.accept(session, IncomingMessage("phone", "11", "1", "due", NOW, "Ada"), NOW)
        session.scalars(select(InboxRow)).one().state = state
    prune(engine, LATER)
    assert rows(engine, InboxRow) == 1

    prune(engine, LATER + DAY)
    assert rows(engine, InboxRow) == kept


def test_the_log_is_kept_for_good(engine: Engine) -> None:
    keeper(engine)
    before = rows(engine, EntryRow)
    prune(engine, NOW + 100 * KEPT)

    assert rows(engine, EntryRow) == before > 0


def many_sent(engine: Engine, number: int) -> None:
    row = {
        "purpose": "answer",
        "channel": "phone",
        "address": "11",
        "text": "",
        "buttons": [],
        "queue": 0,
        "state": "sent",
        "attempts": 1,
        "doubts": 0,
        "parts_sent": 0,
        "planned_at": NOW,
        "next_try_at": NOW,
        "ended_at": NOW,
        "carrier_said": "",
    }
    with engine.begin() as connection:
        each = [{**row, "key": str(key)} for key in range(number)]
        connection.execute(insert(table_of(OutboxRow)), each)


def test_very_many_are_deleted_few_at_a_time(engine: Engine) -> None:
    many_sent(engine, 3 * AT_ONCE + 1)
    assert prune(engine, LATER + DAY) == 3 * AT_ONCE + 1
    assert rows(engine, OutboxRow) == 0


def test_it_goes_on_for_a_while_only_and_the_next_tick_goes_on(
    engine: Engine, monkeypatch: pytest.MonkeyPatch
) -> None:
    many_sent(engine, 2 * AT_ONCE)
    times = iter([0, 0, 0, pruning.PRUNE_SECONDS + 1, 0, 0, 0, 0])
    monkeypatch.setattr(pruning, "monotonic", lambda: next(times))
    assert prune(engine, LATER + DAY) == AT_ONCE
    assert rows(engine, OutboxRow) == AT_ONCE


def test_a_program_that_stops_prunes_no_more(engine: Engine) -> None:
    many_sent(engine, 1)
    assert prune(engine, LATER + DAY, going_on=lambda: False) == 0
    assert rows(engine, OutboxRow) == 1


def test_how_long_it_is_kept_can_be_set(counter: Counter) -> None:
    counter.plan("a")
    counter.send(SendResult.SENT)
    prune(counter.engine, LATER + DAY, kept=2 * KEPT)
    assert keys(counter.engine) == {"a"}


def test_the_owner_says_how_long(engine: Engine) -> None:
    telegram, weather = TelegramSettings(token=SecretStr("1:A")), WeatherSettings(off=True)
    usual = Settings(telegram=telegram, weather=weather)
    other = Settings(telegram=telegram, weather=weather, keep_days=400)
    assert [app_of(each, lambda: engine, "UTC").kept for each in (usual, other)] == [
        KEPT,
        400 * DAY,
    ]
