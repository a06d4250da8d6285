"""Several messages at the same moment, worked through by several workers."""

from datetime import UTC, date, datetime
from functools import partial

from sqlalchemy import Engine, func, select, text

from bot.channels.channel import MessageIn
from bot.desk.desk import Desk
from bot.post import inbox
from bot.post.tables import InboxRow, OutboxRow
from scheduling.records.addresses import find_person
from scheduling.records.engine import reading, writing
from scheduling.records.gateway import CrewRecords
from scheduling.records.tables import CrewRow, EntryRow
from tests.bot.at_once import at_once, rounds
from tests.bot.desk.phones import Phones, river_of_three

TIMES = 200

NOW = datetime(2027, 5, 12, 12, tzinfo=UTC)


def message(who: str, text: str, key: str) -> MessageIn:
    return MessageIn("phone", who, key, text, NOW, who)


def pair(phones: Phones) -> None:
    """Ada and Milo share the yard River."""
    phones.on(date(2027, 5, 12))
    river_of_three(phones)
    code = phones.say("Ada", "invite").split("join ")[1].split()[0].strip(".")
    phones.say("Milo", f"join {code}")


def answers(engine: Engine) -> int:
    with reading(engine) as session:
        found = select(func.count()).select_from(OutboxRow).where(OutboxRow.purpose == "answer")
        return session.scalar(found) or 0


def test_two_people_on_the_same_units_at_once_200_times(phones: Phones, engine: Engine) -> None:
    pair(phones)
    before, desk = answers(engine), Desk(engine)

    def says(who: str, said: str, number: int) -> None:
        desk.receive(message(who, said, f"{who}{number}"), NOW)

    rounds(
        [
            (
                partial(says, "Ada", "1a fed 1 quart", n),
                partial(says, "Milo", "1a note calm", n),
            )
            for n in range(TIMES)
        ]
    )

    with reading(engine) as session:
        person = find_person(session, "phone", "Ada")
        assert person is not None
        log = CrewRecords(session, person.crew_id).entries()
    told = [(entry.person, str(entry.place.unit)) for entry in log]
    assert sorted(told) == [("Ada", "1a")] * TIMES + [("Milo", "1a")] * TIMES
    assert answers(engine) == before + 2 * TIMES
    assert in_order_of_commit(engine)


def in_order_of_commit(engine: Engine) -> bool:
    """Whether the log stands in the order in which its transactions were kept.

    PostgreSQL itself tells when each was kept. On SQLite writers take turns, so that the order
    of the answers is that of the entries.
    """
    with reading(engine) as session:
        if engine.dialect.name == "postgresql":
            kept = text("SELECT pg_xact_commit_timestamp(xmin) FROM entry ORDER BY seq")
            instants = list(session.scalars(kept))
            return len(instants) == 2 * TIMES and instants == sorted(instants)
        said = session.scalars(select(EntryRow.message).order_by(EntryRow.seq))
        keys = [f"answer:phone:{message}" for message in said]
        answered = select(OutboxRow.key).where(OutboxRow.key.in_(keys)).order_by(OutboxRow.id)
        return keys == list(session.scalars(answered))


def test_a_message_that_two_workers_get_at_once_is_one_entry_and_one_answer(
    phones: Phones, engine: Engine
) -> None:
    river_of_three(phones)
    before, desks = answers(engine), [Desk(engine), Desk(engine)]
    for n in range(20):
        twice = message("Ada", "1a eggs", f"m{n}")
        at_once(*(lambda d=desk, m=twice: d.receive(m, NOW) for desk in desks))

    assert phones.log("Ada") == [("River 1a", "eggs")] * 20
    assert answers(engine) == before + 20


def test_a_stored_message_is_worked_through_by_one_of_two_workers(
    phones: Phones, engine: Engine
) -> None:
    river_of_three(phones)
    with writing(engine) as session:
        for n in range(10):
            inbox.accept(session, message("Ada", "1a eggs", f"m{n}"), NOW)

    at_once(*[lambda: Desk(engine).catch_up(NOW)] * 2)

    assert phones.log("Ada") == [("River 1a", "eggs")] * 10
    with reading(engine) as session:
        assert set(session.scalars(select(InboxRow.state))) == {"done"}


def test_a_stranger_who_begins_twice_at_once_founds_one_crew(
    phones: Phones, engine: Engine
) -> None:
    desk = Desk(engine)

    at_once(*(lambda n=n: desk.receive(message("Ada", "begin", f"m{n}"), NOW) for n in range(3)))

    with reading(engine) as session:
        assert session.scalar(select(func.count()).select_from(CrewRow)) == 1
    assert answers(engine) == 3


def test_a_code_that_two_strangers_type_at_once_lets_one_of_them_in(
    phones: Phones, engine: Engine
) -> None:
    river_of_three(phones)
    desk = Desk(engine)
    code = phones.say("Ada", "invite").split("join ")[1].split()[0].strip(".")

    at_once(
        lambda: desk.receive(message("Milo", f"join {code}", "m1"), NOW),
        lambda: desk.receive(message("Sam", f"join {code}", "m2"), NOW),
    )

    with reading(engine) as session:
        found = [find_person(session, "phone", who) for who in ("Milo", "Sam")]
    assert [person is None for person in found].count(True) == 1
