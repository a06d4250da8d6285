"""Answers keep their order and wait for no reminder; a carrier's pace is kept by all workers."""

from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sqlalchemy import Engine

from bot.channels.channel import SendResult
from bot.channels.traits import TELEGRAM_RATE_LIMIT, RateLimit
from bot.delivery.claims import Claimed, claim
from bot.delivery.message_tables import OutboxRow
from bot.delivery.rate_limit import (
    forget_passed,
    spaced_from,
    take_slot,
)
from bot.delivery.rules import Purpose
from scheduling.records.engine import writing
from tests.bot.delivery.counter import Counter, after

SLOW = {"phone": RateLimit(timedelta(seconds=0.1), timedelta(seconds=1), "invented")}


def claim_slowly(counter: Counter, at: float, most: int = 1) -> list[Claimed]:
    with writing(counter.engine) as session:
        return claim(session, ["phone"], after(at), most, rate_limits=SLOW)


def begun(counter: Counter, at: float, most: int = 1) -> list[tuple[str, float]]:
    """What may be sent at an instant, and in how many seconds after noon its send begins."""
    return [
        (each.outgoing.text, round((each.send_at - after(0)).total_seconds(), 3))
        for each in claim_slowly(counter, at, most)
    ]


def test_an_answer_does_not_wait_for_a_morning_that_fails(counter: Counter) -> None:
    counter.plan("morning", purpose=Purpose.MORNING)
    for at in (0, 10, 30):
        counter.send(SendResult.LATER, at)
    counter.plan("answer", at=31)

    assert counter.claimed_texts(31) == ["answer"]


def test_an_answer_does_not_wait_for_the_lease_of_a_lost_morning(counter: Counter) -> None:
    counter.plan("morning", purpose=Purpose.MORNING)
    counter.claim()
    counter.plan("answer", at=1)

    assert counter.claimed_texts(1) == ["answer"]


def test_an_answer_waits_for_the_persons_earlier_answer(counter: Counter) -> None:
    counter.plan("first")
    counter.send(SendResult.LATER, wait=3)
    counter.plan("second", at=1)

    assert counter.claim(2.9) == []
    assert counter.claimed_texts(3) == ["first"]


def test_answers_leave_before_the_rush_of_mornings(counter: Counter) -> None:
    for number in range(60):
        counter.plan(str(number), to=str(number), purpose=Purpose.MORNING)
    counter.plan("answer", to="61", at=1)

    assert begun(counter, 1)[0][0] == "answer"


def test_an_answer_has_the_third_slot_of_a_rush_that_several_workers_send(
    counter: Counter,
) -> None:
    for number in range(60):
        counter.plan(str(number), to=str(number), purpose=Purpose.MORNING)
    for _worker in range(4):
        claim_slowly(counter, 0)
    counter.plan("answer", to="61")

    assert begun(counter, 0) == [("answer", 0.2)]


def test_sends_begin_evenly_spread_and_an_address_has_one_a_second(counter: Counter) -> None:
    for key, to in (("a", "1"), ("b", "2"), ("c", "3")):
        counter.plan(key, to=to)
    counter.plan("morning", to="1", purpose=Purpose.MORNING)

    assert begun(counter, 0, 4) == [("a", 0.0), ("b", 0.1), ("c", 0.2)]
    assert begun(counter, 0.99) == []
    assert begun(counter, 1.0) == [("morning", 1.0)]


def test_after_a_stall_nothing_is_caught_up_in_a_burst(counter: Counter) -> None:
    for number in range(4):
        counter.plan(str(number), to=str(number))
    claim_slowly(counter, 0)

    assert [at for _, at in begun(counter, 7, 3)] == [7.0, 7.1, 7.2]


def test_a_wait_asked_of_one_address_holds_both_its_queues_and_nobody_else(
    counter: Counter,
) -> None:
    counter.plan("answer", to="1")
    (claimed,) = claim_slowly(counter, 0)
    counter.mark(claimed, SendResult.LATER, 0, wait=17)
    counter.plan("morning", to="1", purpose=Purpose.MORNING)
    counter.plan("other", to="2")

    (other,) = claim_slowly(counter, 1, 5)
    counter.mark(other, SendResult.SENT, 1)
    assert other.outgoing.text == "other"
    assert begun(counter, 16.999, 5) == []
    assert [key for key, _ in begun(counter, 17, 5)] == ["answer"]


def test_a_second_address_told_to_wait_shows_that_all_are_meant(counter: Counter) -> None:
    for key in ("1", "2", "3"):
        counter.plan(key, to=key)
    for at, wait in ((0.0, 20), (0.2, 10)):
        (claimed,) = claim_slowly(counter, at)
        counter.mark(claimed, SendResult.LATER, at, wait=wait)

    assert begun(counter, 9.6, 5) == []
    assert sorted(key for key, _ in begun(counter, 10.2, 5)) == ["2", "3"]


def test_an_address_that_had_nothing_for_long_is_forgotten(engine: Engine) -> None:
    with writing(engine) as session:
        take_slot(session, "phone", "1", after(0), SLOW["phone"])
        forget_passed(session, after(3600))
        again = take_slot(session, "phone", "1", after(0), SLOW["phone"])
    assert again.at == after(0)


def test_the_pace_of_telegram_is_at_least_95_percent_of_30_a_second() -> None:
    rate = timedelta(seconds=1) / TELEGRAM_RATE_LIMIT.each
    assert 0.95 * 30 <= rate < 30
    assert TELEGRAM_RATE_LIMIT.same_address >= timedelta(seconds=1)


@pytest.mark.parametrize("part", [0, 2])
def test_a_channel_is_given_one_idempotency_key_for_every_try_of_a_part(
    counter: Counter, part: int
) -> None:
    counter.plan("answer")
    with writing(counter.engine) as session:
        row = session.get_one(OutboxRow, 1)
        row.parts_sent = part
    (first,) = counter.claim()
    counter.mark(first, SendResult.UNKNOWN)
    (again,) = counter.claim(60)

    assert first.outgoing.once == again.outgoing.once == f"answer/{part}"


def _begins(late: list[float]) -> list[float]:
    """When sends begin at Telegram's pace, each so many seconds late."""
    rate_limit, begins = TELEGRAM_RATE_LIMIT, [0.0]
    last = spaced_from(None, rate_limit, 0.0)
    for each in late:
        begins.append(max(begins[-1], last + rate_limit.each.total_seconds()) + each)
        last = spaced_from(last, rate_limit, begins[-1])
    return begins


def test_a_waking_that_is_a_little_late_puts_nothing_after_it_back() -> None:
    begins = _begins([0.004] * 2900)
    assert begins[-1] == pytest.approx(100, abs=0.01)


@given(st.lists(st.sampled_from([0.0, 0.001, 0.009, 0.02, 0.5]), min_size=60, max_size=150))
def test_however_late_sends_begin_no_second_sees_more_than_thirty(late: list[float]) -> None:
    begins = _begins(late)
    for first, begin in enumerate(begins):
        assert sum(begin <= other < begin + 1 for other in begins[first:]) <= 30
