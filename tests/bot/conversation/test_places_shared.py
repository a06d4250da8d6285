"""A place shared from the phone belongs to the yard last spoken of, and says so."""

from datetime import date

import pytest

from deploy.standins.phones import Phones
from scheduling.records.addresses import find_person
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import reading

PIN = "location 48.85000, 2.35000"
"""What a shared place is handed in as."""


def where(phones: Phones, yard: str) -> tuple[float, float] | None:
    with reading(phones.engine) as session:
        ada = find_person(session, phones.name, "Ada")
        assert ada is not None
        return CrewRecords(session, ada.crew_id).yard(yard).location


@pytest.fixture
def two_yards(phones: Phones) -> Phones:
    """River with boxes 1 and 2, and Hill, made last, with boxes 8 and 9."""
    phones.each("Ada", "new yard River", "boxes 1-2 of 3", "new yard Hill", "boxes 8-9 of 3")
    return phones


def test_it_belongs_to_the_yard_that_was_reported_on_last(two_yards: Phones) -> None:
    two_yards.say("Ada", "2c eggs")

    answer = two_yards.say("Ada", PIN)

    assert answer.startswith("River is at 48.8500, 2.3500. undo takes it back. Not River?")
    assert where(two_yards, "River") == (48.85, 2.35)
    assert where(two_yards, "Hill") is None


def test_it_belongs_to_the_yard_that_was_made_last(two_yards: Phones) -> None:
    assert two_yards.say("Ada", PIN).startswith("Hill is at 48.8500, 2.3500.")


def test_the_yard_last_spoken_of_may_be_of_another_day(two_yards: Phones) -> None:
    two_yards.say("Ada", "2c eggs")
    two_yards.on(date(2027, 5, 14))

    assert two_yards.say("Ada", PIN).startswith("River is at")


def test_with_one_yard_nothing_is_said_of_others(phones: Phones) -> None:
    phones.say("Ada", "new yard River")

    assert phones.say("Ada", PIN) == "River is at 48.8500, 2.3500. undo takes it back."


def test_what_it_takes_the_place_of_is_told(two_yards: Phones) -> None:
    two_yards.say("Ada", PIN)

    assert "It was at 48.8500, 2.3500." in two_yards.say("Ada", "location 41.3, -92.6")


def test_a_yard_may_be_named_before_or_after_it(two_yards: Phones) -> None:
    two_yards.say("Ada", "river location 41.3, -92.6")
    two_yards.say("Ada", "location 41.4, -92.7 at hill")

    assert where(two_yards, "River") == (41.3, -92.6)
    assert where(two_yards, "Hill") == (41.4, -92.7)
