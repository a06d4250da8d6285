"""A morning is worked out in the hour before it is due, and again if anything was noted since."""

from collections.abc import Callable
from datetime import date, datetime, timedelta
from types import ModuleType

import pytest
from sqlalchemy import Engine, func, select, update
from sqlalchemy.exc import DBAPIError

from bot.channels.channel import IncomingMessage
from bot.conversation.message_handler import MessageHandler
from bot.conversation.work_out_morning import morning_of
from bot.delivery.intake import Intake
from bot.delivery.sms_budget import SmsBudget
from bot.jobs import ready_mornings
from bot.jobs.mornings import queue_mornings
from bot.jobs.ready_mornings import ReadyMorningRow, make_some_ready
from deploy.standins.at_once import at_once
from scheduling.records import crew_records
from scheduling.records.addresses import make_ready_again
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import reading, writing
from scheduling.records.people import Person
from scheduling.records.weather_asked import claim_yards, keep_answer
from scheduling.records.weather_days import WeatherAskedRow
from tests.bot.jobs.crews import DAY, Member, instant, keeper
from tests.scheduling.weather.test_days_to_keep import hours

EARLIER, BEFORE, AT = instant(DAY, 5, 29), instant(DAY, 5, 30), instant(DAY, 6, 30)


@pytest.fixture
def worked_out(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Whose morning was worked out, in order."""
    names: list[str] = []

    def note(records: CrewRecords, person: Person, day: date, *how: str) -> object:
        names.append(person.name)
        return morning_of(records, person, day, *how)

    monkeypatch.setattr(ready_mornings, "morning_of", note)
    return names


def kept(engine: Engine) -> int:
    with reading(engine) as session:
        return session.scalar(select(func.count()).select_from(ReadyMorningRow)) or 0


def say(ada: Member, text: str) -> None:
    """Let Ada write a quarter of an hour before her morning."""
    at = AT - timedelta(minutes=15)
    Intake(ada.engine, MessageHandler()).receive(
        IncomingMessage("phone", "11", text, text, at, "Ada"), at
    )


def test_nothing_is_made_ready_more_than_an_hour_ahead(engine: Engine) -> None:
    keeper(engine)
    assert make_some_ready(engine, EARLIER) == 0
    assert make_some_ready(engine, BEFORE) == 1
    assert make_some_ready(engine, BEFORE) == 0
    assert kept(engine) == 1


def test_a_morning_that_is_ready_is_queued_as_it_is(engine: Engine, worked_out: list[str]) -> None:
    ada = keeper(engine)
    make_some_ready(engine, BEFORE)
    assert ada.letters() == []
    queue_mornings(engine, AT)
    assert worked_out == ["Ada"]
    assert "Look for eggs 1" in ada.mornings()[0]
    assert kept(engine) == 0


@pytest.mark.parametrize(("work", "at"), [(make_some_ready, BEFORE), (queue_mornings, AT)])
def test_it_is_worked_out_in_a_transaction_that_only_reads(
    engine: Engine, monkeypatch: pytest.MonkeyPatch, work: Callable[..., int], at: datetime
) -> None:
    keeper(engine)

    def write(records: CrewRecords, *_: object) -> None:
        records.add_yard("Hill", "UTC")

    monkeypatch.setattr(ready_mornings, "morning_of", write)
    with pytest.raises(DBAPIError, match=r"read-?only"):
        work(engine, at)


def test_it_is_the_same_to_the_letter_as_one_worked_out_when_due(engine: Engine) -> None:
    ada, milo = keeper(engine, "Ada", "11"), keeper(engine, "Milo", "12")
    milo.update({"next_morning_at": AT + timedelta(hours=1)})
    make_some_ready(engine, BEFORE)
    queue_mornings(engine, AT + timedelta(hours=1))
    assert ada.mornings() == milo.mornings()


def test_what_was_noted_in_between_is_in_it(engine: Engine, worked_out: list[str]) -> None:
    ada = keeper(engine)
    make_some_ready(engine, BEFORE)
    say(ada, "1a eggs")
    queue_mornings(engine, AT)
    assert worked_out == ["Ada", "Ada"]
    assert "Look for eggs 1bc (" in ada.mornings()[0]


def _odds(ada: Member) -> None:
    with writing(ada.engine) as session:
        CrewRecords(session, ada.crew_id).settle_odds(best=0.5)


def _daily_word(ada: Member) -> None:
    ada.update({"daily_word": True})


def _other_channel(ada: Member) -> None:
    ada.add_address("radio", "7")
    ada.lose("phone", "11")


def _new_yard(ada: Member) -> None:
    with writing(ada.engine) as session:
        CrewRecords(session, ada.crew_id).add_yard("Hill", "UTC")


def _weather(ada: Member) -> None:
    with writing(ada.engine) as session:
        (river,) = claim_yards(session, BEFORE, AT, 1)
        keep_answer(session, river, hours(24), BEFORE, AT)


def _days_made_anew(ada: Member) -> None:
    with writing(ada.engine) as session:
        session.execute(update(WeatherAskedRow).values(figures="newer"))


def _renamed(ada: Member) -> None:
    ada.update({"name": "Ada B"})


@pytest.mark.parametrize(
    "change",
    [_odds, _daily_word, _other_channel, _new_yard, _weather, _days_made_anew, _renamed],
)
def test_whatever_bears_on_it_has_it_worked_out_anew(
    engine: Engine, worked_out: list[str], change: Callable[[Member], None]
) -> None:
    ada = keeper(engine)
    with writing(engine) as session:
        CrewRecords(session, ada.crew_id).set_location("River", 41.3, -92.6)
    make_some_ready(engine, BEFORE)
    change(ada)
    queue_mornings(engine, AT)
    assert len(worked_out) == 2
    assert len(ada.mornings()) == 1


@pytest.mark.parametrize(
    ("module", "name", "before"),
    [(ready_mornings, "PROGRAM", "0.1.0"), (crew_records, "figures_version", lambda: "older")],
    ids=["program", "figures"],
)
def test_after_an_update_it_is_worked_out_anew(
    engine: Engine,
    worked_out: list[str],
    monkeypatch: pytest.MonkeyPatch,
    module: ModuleType,
    name: str,
    before: object,
) -> None:
    ada = keeper(engine)
    with monkeypatch.context() as older:
        older.setattr(module, name, before)
        make_some_ready(engine, BEFORE)
    queue_mornings(engine, AT)
    assert worked_out == ["Ada", "Ada"]
    assert len(ada.mornings()) == 1


def test_another_hour_has_it_made_ready_again(engine: Engine, worked_out: list[str]) -> None:
    ada = keeper(engine)
    make_some_ready(engine, BEFORE)
    ada.update({"next_morning_at": AT + timedelta(minutes=20)})
    assert make_some_ready(engine, AT) == 1
    queue_mornings(engine, AT + timedelta(minutes=20))
    assert len(worked_out) == 2


def test_after_other_weather_it_is_made_ready_again(engine: Engine, worked_out: list[str]) -> None:
    ada = keeper(engine)
    make_some_ready(engine, BEFORE)
    with writing(engine) as session:
        (river,) = CrewRecords(session, ada.crew_id).yards()
        make_ready_again(session, river.id)
    assert make_some_ready(engine, BEFORE) == 1
    queue_mornings(engine, AT)
    assert len(worked_out) == 2


def test_a_morning_of_nothing_due_is_ready_too(engine: Engine, worked_out: list[str]) -> None:
    ada = keeper(engine, cells=False)
    make_some_ready(engine, BEFORE)
    queue_mornings(engine, AT)
    assert (worked_out, ada.letters()) == (["Ada"], [])


def test_whom_nothing_reaches_has_none_made_ready(engine: Engine, worked_out: list[str]) -> None:
    keeper(engine, address=None)
    stopped = keeper(engine, "Milo", "12")
    stopped.update({"stopped": True})
    make_some_ready(engine, BEFORE)
    assert (worked_out, kept(engine)) == ([], 0)


def test_an_error_leaves_it_to_be_worked_out_when_due(
    engine: Engine, monkeypatch: pytest.MonkeyPatch
) -> None:
    ada, milo = keeper(engine, "Ada", "11"), keeper(engine, "Milo", "12")

    def fail(_records: CrewRecords, person: Person, day: date, *how: str) -> object:
        if person.name == "Ada":
            raise ValueError("a log that nobody foresaw")
        return morning_of(_records, person, day, *how)

    with monkeypatch.context() as faulty:
        faulty.setattr(ready_mornings, "morning_of", fail)
        assert make_some_ready(engine, BEFORE) == 2
    assert kept(engine) == 1
    queue_mornings(engine, AT)
    assert (len(ada.mornings()), len(milo.mornings())) == (1, 1)


def test_texts_used_up_in_between_are_told(engine: Engine) -> None:
    milo = keeper(engine, "Milo", address=None)
    milo.add_address("sms", "+12025550122")
    make_some_ready(engine, BEFORE, sms_budget=SmsBudget(1))
    queue_mornings(engine, AT, sms_budget=SmsBudget(0))
    assert milo.mornings()[0].startswith("This month's texts are used up")


def test_three_workers_work_each_morning_out_once(engine: Engine, worked_out: list[str]) -> None:
    people = [keeper(engine, f"Keeper {number}", str(number)) for number in range(12)]

    def make_all_ready() -> None:
        while make_some_ready(engine, BEFORE):
            pass

    at_once(*[make_all_ready] * 3)
    assert sorted(worked_out) == sorted(each.person.name for each in people)
    queue_mornings(engine, AT)
    assert [len(each.mornings()) for each in people] == [1] * 12
