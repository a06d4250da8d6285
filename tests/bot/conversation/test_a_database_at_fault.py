"""A message that met a database at fault waits, and is worked through once later."""

from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy import Engine, select
from sqlalchemy.exc import OperationalError

from bot.channels.channel import IncomingMessage
from bot.conversation import message_handler
from bot.conversation.message_handler import MessageHandler
from bot.conversation.turn import Turn
from bot.delivery.intake import Intake
from bot.delivery.message_tables import InboxRow, OutboxRow
from bot.wording.message import Message
from scheduling.records.addresses import find_person
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import reading

NOW = datetime(2027, 5, 12, 10, tzinfo=UTC)


def written(text: str, key: str) -> IncomingMessage:
    return IncomingMessage("phone", "11", key, text, NOW, "Ada")


def full(_turn: Turn) -> Message:
    raise OperationalError("INSERT", {}, Exception("database or disk is full"))


def states(engine: Engine) -> dict[str, str]:
    with reading(engine) as session:
        return {row.message_id: row.state for row in session.scalars(select(InboxRow))}


def answers(engine: Engine, key: str) -> list[str]:
    of_it = select(OutboxRow.text).where(OutboxRow.key == f"answer:phone:{key}")
    with reading(engine) as session:
        return list(session.scalars(of_it))


def test_it_waits_without_an_answer_and_later_has_one_entry_and_one_answer(
    engine: Engine, monkeypatch: pytest.MonkeyPatch
) -> None:
    intake = Intake(engine, MessageHandler())
    for number, text in enumerate(("new yard River", "boxes 1-2 of 3")):
        intake.receive(written(text, str(number)), NOW)
    with monkeypatch.context() as faulty:
        faulty.setattr(message_handler, "respond", full)
        with pytest.raises(OperationalError):
            intake.receive(written("1a eggs", "e"), NOW)
        intake.catch_up(NOW + timedelta(seconds=5))
    assert states(engine)["e"] == "waiting"
    assert answers(engine, "e") == []

    intake.catch_up(NOW + timedelta(minutes=1))
    intake.receive(written("1a eggs", "e"), NOW + timedelta(minutes=2))

    assert states(engine)["e"] == "done"
    (answer,) = answers(engine, "e")
    assert answer.startswith("Noted: 1a eggs")
    with reading(engine) as session:
        person = find_person(session, "phone", "11")
        assert person is not None
        kinds = [str(entry.kind) for entry in CrewRecords(session, person.crew_id).entries()]
    assert kinds.count("eggs") == 1
