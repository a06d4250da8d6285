"""A morning goes to an address that takes messages, on a channel that runs."""

from datetime import timedelta

from sqlalchemy import Engine

from bot.bell.mornings import ring_mornings
from tests.bot.bell.crews import DAY, instant, keeper

MORNING = instant(DAY, 6, 30)
NEXT_DAY = DAY + timedelta(days=1)


def test_a_person_without_an_address_is_passed_over_and_the_next_day_is_set(
    engine: Engine,
) -> None:
    ada = keeper(engine, address=None)
    ring_mornings(engine, MORNING)

    assert ada.letters() == []
    assert ada.person.next_morning_at == instant(NEXT_DAY, 6, 30)


def test_an_address_that_takes_no_more_messages_gets_none_and_the_next_day_is_set(
    engine: Engine,
) -> None:
    ada = keeper(engine)
    ada.lose("phone", "11")
    ring_mornings(engine, MORNING)

    assert ada.letters() == []
    assert ada.person.next_morning_at == instant(NEXT_DAY, 6, 30)


def test_the_persons_next_address_gets_it_instead(engine: Engine) -> None:
    ada = keeper(engine)
    ada.add_address("radio", "7")
    ada.lose("phone", "11")
    ring_mornings(engine, MORNING)

    assert ada.letters() == [("morning", "radio", "7")]


def test_an_address_on_a_channel_that_runs_goes_before_an_older_one(engine: Engine) -> None:
    ada = keeper(engine)
    ada.add_address("radio", "7")
    ring_mornings(engine, MORNING, running=["radio"])

    assert ada.letters() == [("morning", "radio", "7")]


def test_with_no_address_on_a_running_channel_it_waits_on_the_first(engine: Engine) -> None:
    ada = keeper(engine)
    ring_mornings(engine, MORNING, running=["radio"])

    assert ada.letters() == [("morning", "phone", "11")]
