"""A message in is kept once under its channel's id, exactly as it came."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy import Engine, func, select

from bot.channels.channel import IncomingMessage
from bot.conversation.message_handler import MessageHandler
from bot.delivery import inbox
from bot.delivery.inbox import InboxState
from bot.delivery.intake import Intake
from bot.delivery.message_tables import InboxRow, OutboxRow
from scheduling.records.engine import reading, writing

NOW = datetime(2027, 5, 12, 10, tzinfo=UTC)
WRITTEN = IncomingMessage("phone", "11", "11:1", "begin", NOW, sender="Ada")
EDITED = replace(WRITTEN, id="11:1:edit", text="help", corrects="11:1")


def accept(engine: Engine, message: IncomingMessage) -> int | None:
    with writing(engine) as session:
        return inbox.accept(session, message, NOW)


def state(engine: Engine, stored: int | None) -> str:
    with reading(engine) as session:
        return session.get_one(InboxRow, stored).state


@pytest.mark.parametrize("message", [WRITTEN, EDITED])
def test_a_message_is_kept_as_its_channel_gave_it(engine: Engine, message: IncomingMessage) -> None:
    stored = accept(engine, message)

    with reading(engine) as session:
        assert inbox.message_of(session.get_one(InboxRow, stored)) == message


def test_the_same_id_on_another_channel_is_another_message(engine: Engine) -> None:
    assert accept(engine, WRITTEN) != accept(engine, replace(WRITTEN, channel="console"))


def test_messages_wait_in_the_order_they_came(engine: Engine) -> None:
    stored = [accept(engine, replace(WRITTEN, id=f"11:{n}")) for n in (3, 1, 2)]

    with reading(engine) as session:
        assert inbox.waiting(session) == stored


def test_the_same_id_again_is_not_kept_twice(engine: Engine) -> None:
    first = accept(engine, WRITTEN)
    Intake(engine, MessageHandler()).work(first or 0, NOW)

    assert accept(engine, replace(WRITTEN, text="another text")) is None
    with reading(engine) as session:
        assert session.scalar(select(func.count()).select_from(InboxRow)) == 1


def test_a_message_stored_but_not_worked_through_is_worked_through_when_it_comes_again(
    engine: Engine,
) -> None:
    stored = accept(engine, WRITTEN)
    assert state(engine, stored) == InboxState.WAITING

    Intake(engine, MessageHandler()).receive(WRITTEN, NOW + timedelta(seconds=1))

    assert state(engine, stored) == InboxState.DONE


def test_catching_up_answers_each_message_once(engine: Engine) -> None:
    accept(engine, WRITTEN)
    intake = Intake(engine, MessageHandler())
    intake.catch_up(NOW)
    intake.catch_up(NOW)

    with reading(engine) as session:
        answers = session.scalars(select(OutboxRow.key).where(OutboxRow.purpose == "answer"))
        assert list(answers) == ["answer:phone:11:1"]
