"""The crews that the benchmark copies are whole, and each is a crew of its own."""

from datetime import UTC, datetime

import pytest
from sqlalchemy import Engine, func, select

from bot.conversation.work_out_morning import morning_of
from deploy.benchmark import copied_crews
from deploy.benchmark.copied_crews import fill_by_copying
from deploy.benchmark.mornings import is_morning
from scheduling.records.addresses import find_person
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import reading
from scheduling.records.tables import CrewRow

NOW = datetime(2027, 6, 9, 5, 40, tzinfo=UTC)


def text_of(engine: Engine, chat: int) -> str:
    """The morning of whoever is in a chat."""
    with reading(engine) as session:
        person = find_person(session, "telegram", str(chat))
        assert person is not None
        records = CrewRecords(session, person.crew_id)
        assert len(records.weather(NOW.date())) == 4
        message = morning_of(records, person, NOW.date(), "telegram").message
    assert message is not None
    return message.text


@pytest.mark.parametrize("crews", [2, 5])
def test_a_copied_crew_is_told_the_same_as_the_one_it_was_copied_from(
    engine: Engine, monkeypatch: pytest.MonkeyPatch, crews: int
) -> None:
    monkeypatch.setattr(copied_crews, "FOUNDED", 2)
    fill_by_copying(engine, crews, 12, NOW, 100)
    with reading(engine) as session:
        assert session.scalar(select(func.count()).select_from(CrewRow)) == crews
    texts = [text_of(engine, 100 + number) for number in range(crews)]
    assert texts == [texts[number % 2] for number in range(crews)]
    assert texts[0] != texts[1]
    assert all(map(is_morning, texts))
