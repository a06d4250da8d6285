"""What is the owners' to know is told to owners who want to hear, and to nobody else."""

from sqlalchemy import Engine, select

from bot.delivery.notices_to_owners import owners_of
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import writing
from scheduling.records.tables import CrewRow, Role
from tests.bot.delivery.counter import NOW
from tests.bot.jobs.crews import keeper


def test_owners_are_told_and_neither_keepers_nor_who_stopped(engine: Engine) -> None:
    ada = keeper(engine)
    with writing(engine) as session:
        records = CrewRecords(session, ada.crew_id)
        people = (("Bea", Role.OWNER), ("Milo", Role.KEEPER), ("Cleo", Role.OWNER))
        for number, (name, role) in enumerate(people):
            person = records.add_person(name, zone="UTC", now=NOW, role=role)
            records.add_address(person.id, "phone", f"2{number}")
            records.update_person(person.id, stopped=name == "Cleo")
        told = [person.name for person, _ in owners_of(session, select(CrewRow.id), ("phone",), ())]

    assert told == ["Ada", "Bea"]
