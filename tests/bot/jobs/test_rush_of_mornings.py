"""Many mornings at one minute: no reply waits for them, and no transaction holds two."""

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from datetime import date
from threading import Event

import pytest
from sqlalchemy import Connection, Engine, event

from bot.channels.channel import IncomingMessage
from bot.conversation.message_handler import MessageHandler
from bot.conversation.work_out_morning import morning_of
from bot.delivery.intake import Intake
from bot.jobs import ready_mornings
from bot.jobs.mornings import queue_mornings
from deploy.standins.waiting import WAIT_AT_MOST_SECONDS
from scheduling.records.crew_records import CrewRecords
from scheduling.records.people import Person
from tests.bot.jobs.crews import DAY, instant, keeper

AT = instant(DAY, 6, 30)


@contextmanager
def held_mornings(monkeypatch: pytest.MonkeyPatch) -> Iterator[tuple[Event, Event]]:
    """Working a morning out goes on only once it may; gives "it has begun" and "it may go on"."""
    begun, may_go_on = Event(), Event()

    def held(records: CrewRecords, person: Person, day: date, *how: str) -> object:
        begun.set()
        if not may_go_on.wait(WAIT_AT_MOST_SECONDS):
            raise TimeoutError("whoever was to let it go on waited for it")
        return morning_of(records, person, day, *how)

    with monkeypatch.context() as patched:
        patched.setattr(ready_mornings, "morning_of", held)
        yield begun, may_go_on


@contextmanager
def queued_together(engine: Engine) -> Iterator[list[int]]:
    """How many mornings each transaction queues that queues any."""
    counts: list[int] = []
    under_way: dict[int, int] = {}

    def note(
        connection: Connection, _c: object, statement: str, values: object, *_: object
    ) -> None:
        if statement.startswith("INSERT INTO outbox") and "morning:" in str(values):
            under_way[id(connection)] = under_way.get(id(connection), 0) + 1

    def ended(connection: Connection) -> None:
        counts.extend([number] if (number := under_way.pop(id(connection), 0)) else [])

    event.listen(engine, "before_cursor_execute", note)
    event.listen(engine, "commit", ended)
    yield counts
    event.remove(engine, "before_cursor_execute", note)
    event.remove(engine, "commit", ended)


def test_a_reply_does_not_wait_for_the_mornings_that_are_worked_out(
    engine: Engine, monkeypatch: pytest.MonkeyPatch
) -> None:
    people = [keeper(engine, f"Keeper {number}", str(number)) for number in range(3)]
    writer = keeper(engine, "Ada", "99", next_at=instant(DAY, 23))
    with held_mornings(monkeypatch) as (begun, may_go_on), ThreadPoolExecutor(1) as thread:
        rush = thread.submit(queue_mornings, engine, AT)
        assert begun.wait(WAIT_AT_MOST_SECONDS)
        message = IncomingMessage("phone", "99", "m1", "1a eggs", AT, "Ada")
        Intake(engine, MessageHandler()).receive(message, AT)
        still_rushing = not rush.done()
        may_go_on.set()
        assert rush.result() == 3
    assert still_rushing
    assert writer.letters() == [("answer", "phone", "99")]
    assert [len(each.mornings()) for each in people] == [1, 1, 1]


def test_each_morning_is_queued_in_a_transaction_of_its_own(engine: Engine) -> None:
    for number in range(5):
        keeper(engine, f"Keeper {number}", str(number))
    with queued_together(engine) as counts:
        queue_mornings(engine, AT)
    assert counts == [1] * 5
