"""People, what they want, and where they are reached. Everybody here is invented."""

from datetime import date, datetime, time, timedelta

import pytest
from sqlalchemy import update
from sqlalchemy.orm import Session

from scheduling.records.addresses import Address, find_person, people_due, takes_messages_again
from scheduling.records.crew_records import CrewRecords, found_crew
from scheduling.records.tables import AddressRow, Role


def test_a_crew_begins_with_its_owner(session: Session, now: datetime) -> None:
    crew, ann = found_crew(session, "Ann's bees", "Ann", "America/Chicago", now)
    records = CrewRecords(session, crew.id)
    assert records.crew() == crew
    assert records.people() == (ann,)
    assert (ann.name, ann.role, ann.morning) == ("Ann", Role.OWNER, time(6, 30))
    assert ann.created_at == now


def test_a_person_says_how_to_be_told(records: CrewRecords) -> None:
    ann = records.people()[0]
    records.update_person(
        ann.id,
        morning=time(5, 45),
        zone="America/Denver",
        feeder_litres=1.9,
        daily_word=True,
        quiet_from=time(21),
        quiet_until=time(5),
        cautioned_on=date(2027, 4, 1),
        yard="river",
    )
    changed = records.person(ann.id)
    assert (changed.morning, changed.zone, changed.feeder_litres) == (
        time(5, 45),
        "America/Denver",
        1.9,
    )
    assert (changed.quiet_from, changed.quiet_until) == (time(21), time(5))
    assert (changed.daily_word, changed.cautioned_on) == (True, date(2027, 4, 1))
    assert changed.yard == "River"
    assert records.update_person(ann.id, yard=None).yard is None


def test_a_name_belongs_to_one_person_whatever_the_capitals(
    records: CrewRecords, now: datetime
) -> None:
    with pytest.raises(ValueError, match="already a Ann"):
        records.add_person(" ANN ", zone="UTC", now=now)
    ben = records.add_person("Ben", zone="UTC", now=now)
    with pytest.raises(ValueError, match="already"):
        records.update_person(ben.id, name="ann")
    assert records.update_person(ben.id, name="BEN").name == "BEN"


@pytest.mark.parametrize("zone", ["Mars/Base", "", "../etc/passwd", "America"])
def test_a_zone_must_exist(records: CrewRecords, zone: str) -> None:
    with pytest.raises(ValueError, match="not a time zone"):
        records.update_person(records.people()[0].id, zone=zone)


def test_a_person_needs_a_name(records: CrewRecords, now: datetime) -> None:
    with pytest.raises(ValueError, match="at least one letter"):
        records.add_person("  ", zone="UTC", now=now)


def test_whoever_writes_from_an_address_is_found_by_it(
    session: Session, records: CrewRecords
) -> None:
    ann = records.people()[0]
    records.add_address(ann.id, "telegram", "1001")
    records.add_address(ann.id, "telegram", "1001")
    assert find_person(session, "telegram", "1001") == ann
    assert find_person(session, "console", "1001") is None
    assert records.addresses(ann.id) == (Address("telegram", "1001"),)


def test_an_address_that_wrote_takes_messages_again(
    session: Session, records: CrewRecords, now: datetime
) -> None:
    ann = records.people()[0]
    records.add_address(ann.id, "telegram", "1001")
    session.execute(update(AddressRow).values(unreachable_since=now))
    assert records.addresses(ann.id, reachable=True) == ()
    assert find_person(session, "telegram", "1001") == ann
    assert records.addresses(ann.id, reachable=True) == ()
    takes_messages_again(session, "telegram", "1001")
    assert records.addresses(ann.id, reachable=True) == (Address("telegram", "1001"),)


def test_an_address_has_one_person_only_of_a_crew(records: CrewRecords, now: datetime) -> None:
    ann, ben = records.people()[0], records.add_person("Ben", zone="UTC", now=now)
    records.add_address(ann.id, "telegram", "1001")
    records.add_address(ben.id, "telegram", "2002")
    with pytest.raises(ValueError, match="somebody else"):
        records.add_address(ben.id, "telegram", "1001")


def test_people_due_are_those_whose_instant_has_come(
    session: Session, records: CrewRecords, now: datetime
) -> None:
    ann, ben, cal, dee = (
        records.people()[0],
        *(records.add_person(name, zone="UTC", now=now) for name in ("Ben", "Cal", "Dee")),
    )
    records.update_person(ann.id, next_morning_at=now)
    records.update_person(ben.id, next_morning_at=now - timedelta(hours=1))
    records.update_person(cal.id, next_morning_at=now + timedelta(seconds=1))
    records.update_person(dee.id, next_morning_at=now, stopped=True)
    assert [person.name for person in people_due(session, now)] == ["Ben", "Ann"]
    assert [person.name for person in people_due(session, now, at_most=1)] == ["Ben"]
