"""Whoever is out of a crew has no address, no open code and no open question in it."""

from datetime import datetime

import pytest
from sqlalchemy.orm import Session

from scheduling.records.addresses import find_people, people_due
from scheduling.records.crew_records import CrewRecords
from scheduling.records.invites import InviteError, redeem
from scheduling.records.leaving import let_out, take_back_codes
from scheduling.records.numbers import AskLimits, Refusal, ask_number, open_asking, refusal
from scheduling.records.people import Person

NUMBER = "+12025550123"


@pytest.fixture
def ben(records: CrewRecords, now: datetime) -> Person:
    ben = records.add_person("Ben", zone="UTC", now=now)
    records.add_address(ben.id, "telegram", "12")
    return records.update_person(ben.id, next_morning_at=now)


def join(session: Session, code: str, now: datetime) -> Person:
    return redeem(session, code, name="Ben", zone="UTC", channel="telegram", address="12", now=now)


def test_whoever_is_out_is_found_at_no_address_and_has_no_morning(
    session: Session, records: CrewRecords, ben: Person, now: datetime
) -> None:
    let_out(session, ben, now)

    assert find_people(session, "telegram", "12") == ()
    assert people_due(session, now) == ()
    assert [person.name for person in records.people()] == ["Ann"]
    assert [person.name for person in records.people(who_left=True)] == ["Ann", "Ben"]


@pytest.mark.parametrize("own", [True, False])
def test_their_codes_let_nobody_in(
    session: Session, records: CrewRecords, ben: Person, now: datetime, own: bool
) -> None:
    code = records.make_invite(ben.id, now, own=own).code
    let_out(session, ben, now)

    with pytest.raises(InviteError):
        join(session, code, now)


def test_a_code_of_somebody_who_stays_lets_them_in_as_somebody_new(
    session: Session, records: CrewRecords, ben: Person, now: datetime
) -> None:
    code = records.make_invite(records.people()[0].id, now).code
    let_out(session, ben, now)

    back = join(session, code, now)
    assert (back.name, back.id == ben.id) == ("Ben 2", False)


def test_what_they_asked_of_numbers_is_open_no_more(
    session: Session, ben: Person, now: datetime
) -> None:
    asked = ask_number(session, ben, "sms", NUMBER, now, own=True)

    assert let_out(session, ben, now) == (asked,)
    assert open_asking(session, "sms", NUMBER, now) is None


def test_an_owner_no_more_keeps_the_codes_for_their_own_ways(
    session: Session, records: CrewRecords, ben: Person, now: datetime
) -> None:
    own = records.make_invite(ben.id, now, own=True).code
    take_back_codes(session, ben, now, own=False)

    assert redeem(
        session, own, name="Ben", zone="UTC", channel="mail", address="b@bees.example", now=now
    ) == records.person(ben.id)


def test_whoever_wanted_silence_keeps_it(
    session: Session, records: CrewRecords, ben: Person, now: datetime
) -> None:
    records.add_address(ben.id, "sms", NUMBER)
    let_out(session, records.update_person(ben.id, stopped=True), now)

    limits = AskLimits(of_crew=5, of_all=20)
    assert refusal(session, records.crew().id, "sms", NUMBER, now, limits) is Refusal.CLOSED
