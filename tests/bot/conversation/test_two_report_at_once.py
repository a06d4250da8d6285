"""Several messages at the same moment, worked through by several workers."""

from sqlalchemy import Engine, func, select

from bot.conversation.message_handler import MessageHandler
from bot.delivery import inbox
from bot.delivery.intake import Intake
from bot.delivery.message_tables import InboxRow
from deploy.proof.together import NOW, answers, message, said_together
from deploy.standins.at_once import at_once
from deploy.standins.phones import Phones, river_of_three
from scheduling.records.addresses import find_person
from scheduling.records.engine import reading, writing
from scheduling.records.tables import CrewRow

TIMES = 80
"""``python3 deploy/prove.py together`` says a thousand."""


def test_two_people_on_the_same_units_at_once_80_times(engine: Engine) -> None:
    assert said_together(engine, TIMES) == []


def test_a_message_that_two_workers_get_at_once_is_one_entry_and_one_answer(
    phones: Phones, engine: Engine
) -> None:
    river_of_three(phones)
    before = answers(engine)
    intakes = [Intake(engine, MessageHandler()), Intake(engine, MessageHandler())]
    for n in range(20):
        twice = message("Ada", "1a eggs", f"m{n}")
        at_once(*(lambda i=intake, m=twice: i.receive(m, NOW) for intake in intakes))

    assert phones.log("Ada") == [("River 1a", "eggs")] * 20
    assert answers(engine) == before + 20


def test_a_stored_message_is_worked_through_by_one_of_two_workers(
    phones: Phones, engine: Engine
) -> None:
    river_of_three(phones)
    with writing(engine) as session:
        for n in range(10):
            inbox.accept(session, message("Ada", "1a eggs", f"m{n}"), NOW)

    at_once(*[lambda: Intake(engine, MessageHandler()).catch_up(NOW)] * 2)

    assert phones.log("Ada") == [("River 1a", "eggs")] * 10
    with reading(engine) as session:
        assert set(session.scalars(select(InboxRow.state))) == {"done"}


def test_a_stranger_who_begins_twice_at_once_founds_one_crew(
    phones: Phones, engine: Engine
) -> None:
    intake = Intake(engine, MessageHandler())

    at_once(*(lambda n=n: intake.receive(message("Ada", "begin", f"m{n}"), NOW) for n in range(3)))

    with reading(engine) as session:
        assert session.scalar(select(func.count()).select_from(CrewRow)) == 1
    assert answers(engine) == 3


def test_a_code_that_two_strangers_type_at_once_lets_one_of_them_in(
    phones: Phones, engine: Engine
) -> None:
    river_of_three(phones)
    intake = Intake(engine, MessageHandler())
    code = phones.say("Ada", "invite").split("join ")[1].split()[0].strip(".")

    at_once(
        lambda: intake.receive(message("Milo", f"join {code}", "m1"), NOW),
        lambda: intake.receive(message("Sam", f"join {code}", "m2"), NOW),
    )

    with reading(engine) as session:
        found = [find_person(session, "phone", who) for who in ("Milo", "Sam")]
    assert [person is None for person in found].count(True) == 1
