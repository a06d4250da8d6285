"""Who wrote is found with the talk they are in, in each of their crews."""

from collections.abc import Iterator
from dataclasses import replace

import pytest
from sqlalchemy import Engine, update
from sqlalchemy.orm import Session

from bot.channels.channel import IncomingMessage
from bot.conversation.conversation_state import (
    Author,
    ConversationState,
    find_authors,
    load_state,
    save_state,
)
from deploy.standins.phones import Phones
from scheduling.records.addresses import Address, find_person
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import writing
from scheduling.records.people import Person
from scheduling.records.tables import AddressRow


@pytest.fixture
def phones(engine: Engine) -> Phones:
    phones = Phones(engine)
    phones.each("Ada", "begin", "yard River", "boxes 1-4 abc")
    return phones


@pytest.fixture
def session(phones: Phones) -> Iterator[Session]:
    with writing(phones.engine) as session:
        yield session


@pytest.fixture
def ada(session: Session) -> Person:
    found = find_person(session, "phone", "Ada")
    assert found is not None
    return found


def wrote(phones: Phones, address: str) -> IncomingMessage:
    return IncomingMessage("phone", address, "m1", "same 4b", phones.now, address)


def test_with_the_talk_as_it_was_left(phones: Phones, session: Session, ada: Person) -> None:
    state = replace(load_state(session, ada.id), unanswered="4b eggs", more=("the rest",))
    save_state(session, ada.id, state)

    assert find_authors(session, wrote(phones, "Ada")) == (Author(ada, state),)


def test_whoever_never_said_a_thing_is_in_no_talk(
    phones: Phones, session: Session, ada: Person
) -> None:
    records = CrewRecords(session, ada.crew_id)
    milo = records.add_person("Milo", zone="UTC", now=phones.now)
    records.add_address(milo.id, "phone", "Milo")

    assert find_authors(session, wrote(phones, "Milo")) == (Author(milo, ConversationState()),)


def test_a_stranger_is_nobody(phones: Phones, session: Session) -> None:
    assert find_authors(session, wrote(phones, "Sam")) == ()


def test_an_address_that_wrote_takes_messages_again(
    phones: Phones, session: Session, ada: Person
) -> None:
    records = CrewRecords(session, ada.crew_id)
    session.execute(update(AddressRow).values(unreachable_since=phones.now))
    assert records.addresses(ada.id, reachable=True) == ()

    find_authors(session, wrote(phones, "Ada"))

    assert records.addresses(ada.id, reachable=True) == (Address("phone", "Ada"),)
