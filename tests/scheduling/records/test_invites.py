"""A code read out by the owner lets one partner in, once, within two weeks."""

import re
from datetime import datetime, time, timedelta

import pytest
from sqlalchemy import Engine
from sqlalchemy.orm import Session

from scheduling.records.addresses import find_people, find_person
from scheduling.records.crew_records import CrewRecords, found_crew
from scheduling.records.engine import writing
from scheduling.records.invites import InviteError, InviteProblem, redeem
from scheduling.records.people import Person
from scheduling.records.tables import Role


def join(
    session: Session, code: str, now: datetime, name: str = "Ben", address: str = "2002"
) -> Person:
    return redeem(
        session, code, name=name, zone="UTC", channel="telegram", address=address, now=now
    )


@pytest.fixture
def code(records: CrewRecords, now: datetime) -> str:
    return records.make_invite(records.people()[0].id, now).code


def test_the_partner_joins_the_owner_s_crew(
    session: Session, records: CrewRecords, code: str, now: datetime
) -> None:
    ben = join(session, code, now)
    assert records.people()[1] == ben
    assert (ben.name, ben.role) == ("Ben", Role.KEEPER)
    assert find_person(session, "telegram", "2002") == ben


def test_a_code_may_be_typed_in_small_letters(session: Session, code: str, now: datetime) -> None:
    assert join(session, f" {code.lower()} ", now).name == "Ben"


def test_a_code_is_good_once(session: Session, code: str, now: datetime) -> None:
    join(session, code, now)
    with pytest.raises(InviteError) as refused:
        join(session, code, now, name="Cal", address="3003")
    assert refused.value.problem is InviteProblem.USED


def test_a_code_is_good_for_14_days(session: Session, code: str, now: datetime) -> None:
    with pytest.raises(InviteError) as refused:
        join(session, code, now + timedelta(days=14))
    assert refused.value.problem is InviteProblem.EXPIRED
    assert join(session, code, now + timedelta(days=14, seconds=-1)).name == "Ben"


def test_a_code_nobody_made_lets_nobody_in(session: Session, now: datetime) -> None:
    with pytest.raises(InviteError) as refused:
        join(session, "222222", now)
    assert refused.value.problem is InviteProblem.UNKNOWN


def test_of_two_who_type_a_code_at_one_time_one_is_let_in(engine: Engine, now: datetime) -> None:
    with writing(engine) as session:
        crew, ann = found_crew(session, "Bees", "Ann", "UTC", now)
        code = CrewRecords(session, crew.id).make_invite(ann.id, now).code
    with writing(engine) as session:
        join(session, code, now)
    with pytest.raises(InviteError), writing(engine) as session:
        join(session, code, now, name="Cal", address="3003")
    with writing(engine) as session:
        assert [p.name for p in CrewRecords(session, crew.id).people()] == ["Ann", "Ben"]


def test_who_is_in_the_crew_already_uses_up_nothing(
    session: Session, records: CrewRecords, code: str, now: datetime
) -> None:
    ann = records.people()[0]
    records.add_address(ann.id, "telegram", "1001")
    assert join(session, code, now, name="Ann", address="1001") == ann
    assert join(session, code, now).name == "Ben"


def test_a_second_ann_gets_a_number(session: Session, code: str, now: datetime) -> None:
    assert join(session, code, now, name="Ann").name == "Ann 2"


def test_a_keeper_known_from_imported_entries_is_that_person(
    session: Session, records: CrewRecords, code: str, now: datetime
) -> None:
    imported = records.add_person("Ben", zone="UTC", now=now)
    assert join(session, code, now, name="ben") == imported


def test_an_address_of_another_crew_is_in_both_with_the_same_clock_and_hours(
    session: Session, records: CrewRecords, code: str, now: datetime
) -> None:
    own, ben = found_crew(session, "Ben's bees", "Ben", "America/Chicago", now)
    theirs = CrewRecords(session, own.id)
    theirs.add_address(ben.id, "telegram", "2002")
    theirs.update_person(ben.id, morning=time(5, 45), cautioned_on=now.date())

    joined = join(session, code, now)

    assert joined.crew_id == records.crew().id
    assert (joined.zone, joined.morning) == ("America/Chicago", time(5, 45))
    assert joined.cautioned_on == now.date(), "nobody is warned twice"
    at = find_people(session, "telegram", "2002")
    assert [person.crew_id for person in at] == [own.id, records.crew().id]


def test_codes_are_easy_to_read_out_and_fit_a_deep_link(
    records: CrewRecords, now: datetime
) -> None:
    """A start payload may have 1 to 64 of A-Z, a-z, 0-9, _ and -.

    Source: Telegram, "Bot Features", section "Deep Linking", core.telegram.org/bots/features
    (from memory).
    """
    ann = records.people()[0]
    codes = [records.make_invite(ann.id, now).code for _ in range(200)]
    assert all(re.fullmatch(r"[A-Za-z0-9_-]{1,64}", code) for code in codes)
    assert all(re.fullmatch(r"[A-Z0-9]{6}", code) for code in codes)
    assert not set("".join(codes)) & set("0O1IL")
    assert len(set(codes)) == 200
