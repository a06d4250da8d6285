"""A person's name goes out of the records, a crew goes wholly; the guard allows no more."""

from collections.abc import Callable
from datetime import datetime

import pytest
from sqlalchemy import Table, func, select, text
from sqlalchemy.exc import DBAPIError
from sqlalchemy.orm import Session

import bot.all_tables  # noqa: F401 - all of them are looked through
from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.records.crew_records import CrewRecords, found_crew
from scheduling.records.forgetting import NAMELESS, delete_crew, forget_places, take_name_out
from scheduling.records.leaving import let_out
from scheduling.records.people import Person
from scheduling.records.tables import Base, EntryRow, Role, table_of
from scheduling.records.weather_asked import claim_yards, keep_answer
from scheduling.values import Stores
from scheduling.weather.hour import HourOfWeather

Noted = Callable[..., Entry]


@pytest.fixture
def ben(records: CrewRecords, now: datetime, noted: Noted) -> Person:
    """A partner who noted two things in one message and one in another, beside one of Ann's."""
    ben = records.add_person("Ben", zone="UTC", now=now)
    records.add_address(ben.id, "telegram", "777001")
    by_ben = [
        noted("4a", EntryKind.EGGS, person="Ben", message="777001:1"),
        noted("4b", EntryKind.STORES, Stores(0.5), person="Ben", message="777001:1", text="mild"),
        noted("4c", EntryKind.NO_EGGS, person="Ben", message="777001:2"),
    ]
    records.append([noted("7", EntryKind.EGGS, message="11:9"), *by_ben])
    return ben


def forget(session: Session, person: Person, now: datetime) -> str:
    let_out(session, person, now)
    return take_name_out(session, person, now)


def test_the_entries_stay_without_the_name(
    session: Session, records: CrewRecords, ben: Person, now: datetime
) -> None:
    before = records.entries()
    assert forget(session, ben, now) == NAMELESS
    after = records.entries()

    assert [entry.person for entry in after] == ["Ann", *["somebody"] * 3]
    kept = [(e.uid, e.place, e.kind, e.value, e.on, e.recorded_at, e.note) for e in after]
    assert kept == [(e.uid, e.place, e.kind, e.value, e.on, e.recorded_at, e.note) for e in before]


def test_the_ids_of_their_messages_say_nothing_and_still_keep_entries_together(
    session: Session, records: CrewRecords, ben: Person, now: datetime
) -> None:
    forget(session, ben, now)
    of_ann, *of_ben = [entry.message for entry in records.entries()]

    assert of_ann == "11:9"
    assert of_ben[0] == of_ben[1] != of_ben[2]
    assert not any("777001" in (message or "") for message in of_ben)


def test_two_who_are_forgotten_are_told_apart(
    session: Session, records: CrewRecords, ben: Person, now: datetime
) -> None:
    cy = records.add_person("Cy", zone="UTC", now=now)
    assert [forget(session, each, now) for each in (ben, cy)] == ["somebody", "somebody 2"]


def test_a_crew_that_bears_the_name_is_called_after_who_stays(
    session: Session, now: datetime
) -> None:
    crew, ada = found_crew(session, "Ada's crew", "Ada", "UTC", now)
    records = CrewRecords(session, crew.id)
    records.add_person("Bea", zone="UTC", now=now, role=Role.OWNER)
    forget(session, ada, now)
    assert records.crew().name == "Bea's crew"


REFUSED = {
    "another column": "UPDATE entry SET kind = 'no_eggs' WHERE person_id = {ben}",
    "the value": "UPDATE entry SET value = '3' WHERE person_id = {ben} AND box = 4",
    "the note": "UPDATE entry SET note = '' WHERE person_id = {ben} AND letter = 'b'",
    "who said it": "UPDATE entry SET person_id = 1 WHERE person_id = {ben}",
    "somebody else's id": "UPDATE entry SET message = 'x' WHERE person_id <> {ben}",
    "deleting": "DELETE FROM entry WHERE person_id = {ben}",
}


@pytest.mark.parametrize("what", REFUSED)
def test_of_a_forgotten_person_nothing_else_may_be_changed(
    session: Session, ben: Person, now: datetime, what: str
) -> None:
    forget(session, ben, now)
    with pytest.raises(DBAPIError, match="never changed or deleted"):
        session.execute(text(REFUSED[what].format(ben=ben.id)))


def test_of_nobody_else_not_even_the_id_of_a_message_may_be_changed(
    session: Session, ben: Person
) -> None:
    with pytest.raises(DBAPIError, match="never changed or deleted"):
        session.execute(text("UPDATE entry SET message = 'x' WHERE box = 4"))


def test_a_crew_of_nobody_keeps_no_place_and_no_weather(
    session: Session, records: CrewRecords, now: datetime
) -> None:
    records.set_location("River", 41.3, -92.6)
    (river,) = claim_yards(session, now, now, 10)
    keep_answer(session, river, [HourOfWeather(now, temperature_c=20)], now, now)
    forget_places(session, records.crew().id)
    session.expire_all()

    assert records.yard("River").latitude is None
    for name in ("weather_hour", "weather_day", "weather_asked"):
        assert count(session, Base.metadata.tables[name]) == 0


def count(session: Session, table: Table) -> int:
    return session.scalar(select(func.count()).select_from(table)) or 0


def counted(session: Session) -> dict[str, int]:
    return {table.name: count(session, table) for table in Base.metadata.sorted_tables}


def test_a_crew_is_deleted_wholly_and_no_other_is_touched(
    session: Session, records: CrewRecords, ben: Person, now: datetime, noted: Noted
) -> None:
    before = counted(session)
    crew, sam = found_crew(session, "Strangers", "Sam", "UTC", now)
    theirs = CrewRecords(session, crew.id)
    theirs.add_yard("Hill", "UTC")
    theirs.set_location("Hill", 51.5, 0)
    theirs.make_invite(sam.id, now)
    theirs.append([noted(None, EntryKind.NOTE, yard="Hill", person="Sam", text="wind")])
    delete_crew(session, crew.id, now)

    assert counted(session) == before
    with pytest.raises(LookupError, match="no crew"):
        delete_crew(session, crew.id, now)


def test_the_entries_of_a_crew_go_with_it_alone(
    session: Session, records: CrewRecords, ben: Person
) -> None:
    with pytest.raises(DBAPIError, match="never changed or deleted"):
        session.execute(text("DELETE FROM entry"))


def test_every_table_that_belongs_to_a_crew_is_emptied_of_it(
    session: Session, records: CrewRecords, ben: Person, now: datetime
) -> None:
    deleted = delete_crew(session, records.crew().id, now)

    assert deleted["entry"] == 4
    assert count(session, table_of(EntryRow)) == 0
    of_no_crew = set(Base.metadata.tables) - deleted.keys()
    assert not {name for name in of_no_crew if _points_at_a_crew(Base.metadata.tables[name])}


def _points_at_a_crew(table: Table) -> bool:
    return any(key.column.table.name in ("crew", "person", "yard") for key in table.foreign_keys)
