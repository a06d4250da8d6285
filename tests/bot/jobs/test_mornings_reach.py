"""A morning goes to an address that takes messages, on a channel that runs."""

from datetime import timedelta

from sqlalchemy import Engine

from bot.channels.channel import SendOutcome, SendResult
from bot.delivery.claims import claim
from bot.delivery.outbox import complete
from bot.delivery.sms_budget import SmsBudget
from bot.jobs.mornings import queue_mornings
from scheduling.records.engine import writing
from tests.bot.jobs.crews import DAY, instant, keeper

MORNING = instant(DAY, 6, 30)
NEXT_DAY = DAY + timedelta(days=1)


def test_a_person_without_an_address_is_passed_over_and_the_next_day_is_set(
    engine: Engine,
) -> None:
    ada = keeper(engine, address=None)
    queue_mornings(engine, MORNING)

    assert ada.letters() == []
    assert ada.person.next_morning_at == instant(NEXT_DAY, 6, 30)


def test_an_address_that_takes_no_more_messages_gets_none_and_the_next_day_is_set(
    engine: Engine,
) -> None:
    ada = keeper(engine)
    ada.lose("phone", "11")
    queue_mornings(engine, MORNING)

    assert ada.letters() == []
    assert ada.person.next_morning_at == instant(NEXT_DAY, 6, 30)


def test_the_persons_next_address_gets_it_instead(engine: Engine) -> None:
    ada = keeper(engine)
    ada.add_address("radio", "7")
    ada.lose("phone", "11")
    queue_mornings(engine, MORNING)

    assert ada.letters() == [("morning", "radio", "7")]


def test_an_address_on_a_channel_that_runs_goes_before_an_older_one(engine: Engine) -> None:
    ada = keeper(engine)
    ada.add_address("radio", "7")
    queue_mornings(engine, MORNING, running=["radio"])

    assert ada.letters() == [("morning", "radio", "7")]


def test_with_no_address_on_a_running_channel_it_waits_on_the_first(engine: Engine) -> None:
    ada = keeper(engine)
    queue_mornings(engine, MORNING, running=["radio"])

    assert ada.letters() == [("morning", "phone", "11")]


def test_once_the_months_texts_are_used_up_a_morning_by_text_says_till_when(
    engine: Engine,
) -> None:
    used_up = "This month's texts are used up: replies are noted, answers come again Tue 1 Jun.\n"
    milo = keeper(engine, address=None)
    milo.add_address("sms", "+12025550122")
    queue_mornings(engine, MORNING, sms_budget=SmsBudget(1))
    with writing(engine) as session:
        (claimed,) = claim(session, ["sms"], instant(DAY, 9))
        complete(session, claimed, SendOutcome(SendResult.SENT), instant(DAY, 9))
    queue_mornings(engine, instant(NEXT_DAY, 6, 30), sms_budget=SmsBudget(1))

    first, second = milo.mornings()
    assert not first.startswith(used_up)
    assert second.startswith(used_up)
