"""A morning on its way when its person stops, leaves or blocks us never comes after that."""

from collections.abc import Callable
from datetime import timedelta

import pytest
from sqlalchemy import Engine, delete, select

from bot.channels.channel import IncomingMessage, SendOutcome, SendResult
from bot.channels.send_error import SendError
from bot.conversation.message_handler import MessageHandler
from bot.delivery.claims import Claimed, claim
from bot.delivery.intake import Intake
from bot.delivery.message_tables import OutboxRow
from bot.delivery.outbox import complete, withdraw
from bot.delivery.outcomes import apply_outcome
from bot.delivery.rules import LEASE
from bot.jobs.fallback import fall_back
from bot.jobs.mornings import queue_mornings
from scheduling.records.engine import reading, writing
from scheduling.records.tables import AddressRow
from tests.bot.jobs.crews import DAY, Member, instant, keeper

MORNING = instant(DAY, 6, 30)
SECOND = timedelta(seconds=1)
BOTH = ("phone", "sms")
LOST = SendOutcome(SendResult.UNKNOWN, error=SendError.NO_ANSWER)
NOT_TAKEN = SendOutcome(SendResult.LATER, error=SendError.CARRIER_FAILED)

Goes = Callable[[Member], None]
"""How somebody stops or goes while their morning is on its way."""


def types(ada: Member, text: str, at: int = 1) -> None:
    now = MORNING + at * SECOND
    message = IncomingMessage("phone", "11", f"11:{text}", text, now, "Ada")
    Intake(ada.engine, MessageHandler()).receive(message, now)


def stops(ada: Member) -> None:
    types(ada, "stop")


def is_stopped(ada: Member) -> None:
    """As whatever else may stop a person."""
    ada.update({"stopped": True})


def loses_the_address(ada: Member) -> None:
    """As who removed a number, left or was removed."""
    with writing(ada.engine) as session:
        session.execute(delete(AddressRow).where(AddressRow.person_id == ada.person_id))


GOES = pytest.mark.parametrize("goes", [stops, is_stopped, loses_the_address])


def on_its_way(ada: Member) -> Claimed:
    """The morning, whose send was begun and has not ended."""
    queue_mornings(ada.engine, MORNING)
    (claimed,) = claimed_at(ada, 0)
    return claimed


def claimed_at(ada: Member, seconds: float) -> list[Claimed]:
    with writing(ada.engine) as session:
        return claim(session, BOTH, MORNING + seconds * SECOND)


def ends(ada: Member, claimed: Claimed, outcome: SendOutcome, at: int) -> None:
    with writing(ada.engine) as session:
        row = complete(session, claimed, outcome, MORNING + at * SECOND)
        if row is not None:
            apply_outcome(session, row, claimed, outcome, MORNING + at * SECOND, BOTH)


def later_texts(ada: Member) -> list[str]:
    """First words of all that may still be sent, with each send ending well, within two hours."""
    texts = []
    for seconds in (20, 60, 7200):
        fall_back(ada.engine, MORNING + seconds * SECOND, BOTH)
        for claimed in claimed_at(ada, seconds):
            texts.append(claimed.outgoing.text.split(" ")[0])
            ends(ada, claimed, SendOutcome(SendResult.SENT), seconds + 1)
    return texts


def mornings(ada: Member) -> list[str]:
    rows = select(OutboxRow.state).where(OutboxRow.purpose == "morning")
    with reading(ada.engine) as session:
        return list(session.scalars(rows))


@GOES
@pytest.mark.parametrize("outcome", [LOST, NOT_TAKEN], ids=["answer lost", "not taken"])
def test_whose_answer_from_the_carrier_is_lost_is_not_sent_again(
    engine: Engine, goes: Goes, outcome: SendOutcome
) -> None:
    ada = keeper(engine)
    claimed = on_its_way(ada)
    goes(ada)
    ends(ada, claimed, outcome, at=9)

    assert [text for text in later_texts(ada) if text != "Stopped:"] == []
    assert mornings(ada) == ["expired"]


def test_without_a_stop_it_is(engine: Engine) -> None:
    ada = keeper(engine)
    ends(ada, on_its_way(ada), LOST, at=9)

    assert later_texts(ada) == ["Wed"]


@GOES
def test_after_a_kill_with_a_claim_open_it_is_not_sent_again(engine: Engine, goes: Goes) -> None:
    ada = keeper(engine)
    on_its_way(ada)
    goes(ada)

    assert [text for text in later_texts(ada) if text != "Stopped:"] == []
    assert mornings(ada)[0] in ("expired", "unknown")


def test_after_a_kill_without_a_stop_it_is(engine: Engine) -> None:
    ada = keeper(engine)
    on_its_way(ada)

    assert claimed_at(ada, LEASE.total_seconds())[0].attempt == 2


@GOES
@pytest.mark.parametrize("killed", [False, True], ids=["answer lost", "killed"])
def test_it_does_not_go_over_the_next_channel_either(
    engine: Engine, goes: Goes, killed: bool
) -> None:
    ada = keeper(engine)
    ada.add_address("sms", "+12025550123")
    ada.update({"fallback_minutes": 1})
    claimed = on_its_way(ada)
    with writing(engine) as session:
        session.get_one(OutboxRow, claimed.id).fallback_at = MORNING + 15 * SECOND
    goes(ada)
    if not killed:
        ends(ada, claimed, LOST, at=9)

    assert [text for text in later_texts(ada) if text != "Stopped:"] == []


def test_what_was_sent_on_before_the_stop_is_not_sent_after_it(engine: Engine) -> None:
    """Nor does what fell back wait for the next channel's turn."""
    ada = keeper(engine)
    ada.add_address("sms", "+12025550123")
    ends(ada, on_its_way(ada), SendOutcome(SendResult.SENT, "7"), at=1)
    with writing(engine) as session:
        (row,) = session.scalars(select(OutboxRow)).all()
        row.fallback_at = MORNING + 5 * SECOND
    assert fall_back(engine, MORNING + 6 * SECOND, BOTH) == 1
    is_stopped(ada)

    assert later_texts(ada) == []


@pytest.mark.parametrize("goes", [is_stopped, loses_the_address])
def test_nothing_is_queued_for_the_next_channel_of_who_is_gone(engine: Engine, goes: Goes) -> None:
    ada = keeper(engine)
    ada.add_address("sms", "+12025550123")
    ends(ada, on_its_way(ada), SendOutcome(SendResult.SENT, "7"), at=1)
    with writing(engine) as session:
        (row,) = session.scalars(select(OutboxRow)).all()
        row.fallback_at = MORNING + 5 * SECOND
    goes(ada)
    fall_back(engine, MORNING + 6 * SECOND, BOTH)

    assert len(mornings(ada)) == 1


def test_who_starts_again_meanwhile_gets_it(engine: Engine) -> None:
    ada = keeper(engine)
    claimed = on_its_way(ada)
    types(ada, "stop")
    types(ada, "start", at=3)
    ends(ada, claimed, NOT_TAKEN, at=9)

    assert "Wed" in later_texts(ada)


def test_what_comes_back_after_another_message_met_a_block_goes_on_unasked(engine: Engine) -> None:
    """The carrier that said it is blocked is not asked a second time; the next channel has it."""
    ada = keeper(engine)
    ada.add_address("sms", "+12025550123")
    claimed = on_its_way(ada)
    ends(ada, claimed, LOST, at=9)
    ada.lose("phone", "11")
    (again,) = claimed_at(ada, 60)

    assert (again.attempt, again.is_gone) == (2, True)


def test_one_that_was_never_tried_asks_the_carrier_itself(engine: Engine) -> None:
    """The mark may be an old one: only an arrival or a message in takes it away."""
    ada = keeper(engine)
    queue_mornings(engine, MORNING)
    ada.lose("phone", "11")
    (first,) = claimed_at(ada, 0)

    assert (first.attempt, first.is_gone) == (1, False)


def test_a_stop_that_ends_all_keeps_an_answer_under_way_from_coming_twice(engine: Engine) -> None:
    """Over texts a stop means everything, as carriers have it."""
    ada = keeper(engine)
    types(ada, "due")
    (answer,) = claimed_at(ada, 1)
    with writing(engine) as session:
        withdraw(session, ada.person_id, MORNING + 2 * SECOND, all_of_it=True)
    ends(ada, answer, LOST, at=9)

    assert later_texts(ada) == []


def test_an_answer_under_way_when_a_chat_stops_comes_all_the_same(engine: Engine) -> None:
    ada = keeper(engine)
    types(ada, "due")
    (answer,) = claimed_at(ada, 1)
    types(ada, "stop", at=2)
    ends(ada, answer, NOT_TAKEN, at=9)

    assert later_texts(ada) == [answer.outgoing.text.split(" ")[0], "Stopped:"]


def test_whom_the_carrier_calls_opted_out_is_stopped(engine: Engine) -> None:
    """They told their carrier so, and it will deliver nothing more."""
    ada = keeper(engine)
    opted_out = SendOutcome(SendResult.UNREACHABLE, error=SendError.OPTED_OUT)
    ends(ada, on_its_way(ada), opted_out, at=1)

    assert ada.person.stopped
    assert queue_mornings(engine, instant(DAY + timedelta(days=1), 7)) == 0
    assert later_texts(ada) == []
