"""How a send ended decides whether, and when, a message is sent again."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bot.channels.channel import SendOutcome, SendResult
from bot.delivery.outbox import complete
from bot.delivery.rules import (
    JITTER,
    LEASE,
    LONGEST_WAIT,
    QUEUES,
    REPEAT_WHEN_UNKNOWN,
    WAITS,
    Purpose,
    SendQueue,
)
from scheduling.records.engine import writing
from tests.bot.delivery.counter import NOW, Counter

LONGEST = LONGEST_WAIT.total_seconds()
LEASED = LEASE.total_seconds()


def test_a_sent_message_keeps_the_carriers_id_and_is_not_sent_again(counter: Counter) -> None:
    counter.plan("a")
    (claimed,) = counter.claim()
    with writing(counter.engine) as session:
        complete(session, claimed, SendOutcome(SendResult.SENT, "11:7"), NOW)

    row = counter.row("a")
    assert (row.state, row.carrier_id, row.ended_at) == ("sent", "11:7", NOW)
    assert counter.claim(10 * LONGEST) == []


@pytest.mark.parametrize("result", [SendResult.REFUSED, SendResult.UNREACHABLE])
def test_a_refusal_is_for_good(counter: Counter, result: SendResult) -> None:
    counter.plan("a")
    counter.send(result)

    assert counter.state("a") == "failed"
    assert counter.claim(10 * LONGEST) == []


def test_a_wait_that_the_carrier_asks_for_is_kept_exactly(counter: Counter) -> None:
    counter.plan("a")
    counter.send(SendResult.LATER, wait=35)

    assert counter.claim(34.999) == []
    assert counter.claimed_texts(35) == ["a"]


def waits_of(counter: Counter, key: str, purpose: Purpose, tries: int = 12) -> list[float]:
    """How long a message waits after each failure without a word from the carrier, in seconds."""
    counter.plan(key, to=key, purpose=purpose)
    at, waits = 0.0, []
    for _ in range(tries):
        counter.send(SendResult.LATER, at)
        waits.append((counter.row(key).next_try_at - NOW).total_seconds() - at)
        at += waits[-1] + 0.001
    counter.send(SendResult.REFUSED, at)
    return waits


@pytest.mark.parametrize("purpose", list(Purpose))
def test_without_a_word_from_the_carrier_the_waits_double_up_to_the_longest(
    counter: Counter, purpose: Purpose
) -> None:
    queue = WAITS[QUEUES[purpose]]
    first, longest = queue.first.total_seconds(), queue.longest.total_seconds()
    full = [min(first * 2**n, longest) for n in range(12)]

    shares = [
        wait / whole for wait, whole in zip(waits_of(counter, "a", purpose), full, strict=True)
    ]

    assert all(1 - JITTER - 1e-3 <= share <= 1 + 1e-3 for share in shares)


def test_an_answer_is_never_put_off_for_minutes(counter: Counter) -> None:
    assert max(waits_of(counter, "a", Purpose.ANSWER)) <= 20


def test_messages_that_fail_together_are_not_all_tried_again_at_one_instant(
    counter: Counter,
) -> None:
    firsts = {waits_of(counter, str(number), Purpose.MORNING, 1)[0] for number in range(20)}

    assert len(firsts) > 15
    assert max(firsts) - min(firsts) > JITTER * WAITS[SendQueue.REMINDERS].first.total_seconds() / 3


@pytest.mark.parametrize("purpose", list(Purpose))
def test_in_doubt_a_message_is_repeated_as_its_purpose_allows(
    counter: Counter, purpose: Purpose
) -> None:
    counter.plan("a", purpose=purpose)
    sent, at = 0, 0.0
    while claimed := counter.claim(at):
        counter.mark(claimed[0], SendResult.UNKNOWN, at)
        sent, at = sent + 1, at + LONGEST

    assert sent == 1 + REPEAT_WHEN_UNKNOWN[purpose]
    assert counter.state("a") == "unknown"


def test_tries_that_surely_did_not_arrive_do_not_use_up_the_repeat(counter: Counter) -> None:
    counter.plan("a", purpose=Purpose.MORNING)
    for at in (0, LONGEST, 2 * LONGEST):
        counter.send(SendResult.LATER, at)
    counter.send(SendResult.UNKNOWN, 3 * LONGEST)

    assert counter.claimed_texts(4 * LONGEST) == ["a"]


def test_a_crash_after_tries_that_did_not_arrive_does_not_lose_the_message(
    counter: Counter,
) -> None:
    counter.plan("a", purpose=Purpose.MORNING)
    for at in (0, LONGEST):
        counter.send(SendResult.LATER, at)
    counter.claim(2 * LONGEST)

    assert counter.claimed_texts(2 * LONGEST + LEASED) == ["a"]


def test_past_its_use_a_message_is_not_sent(counter: Counter) -> None:
    counter.plan("a", useful_for=60)
    counter.plan("b", to="12", useful_for=60)

    assert "a" in counter.claimed_texts(59)
    assert counter.claim(60) == []
    assert (counter.state("a"), counter.state("b")) == ("claimed", "claimed")


def test_a_message_put_off_past_its_use_expires(counter: Counter) -> None:
    counter.plan("a", useful_for=60)
    counter.send(SendResult.LATER, wait=61)

    assert counter.claim(61) == []
    assert counter.state("a") == "expired"


def test_a_claim_lost_in_a_crash_is_not_sent_past_its_use(counter: Counter) -> None:
    counter.plan("a", purpose=Purpose.MORNING, useful_for=LEASED)
    counter.claim()

    assert counter.claim(LEASED) == []
    assert counter.state("a") == "unknown"


def test_what_has_expired_frees_the_next(counter: Counter) -> None:
    counter.plan("a", useful_for=10)
    counter.plan("b")

    assert counter.claimed_texts(11) == ["b"]


@given(first=st.sampled_from(SendResult), second=st.sampled_from(SendResult))
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
def test_an_ended_state_is_never_left(
    counter: Counter, first: SendResult, second: SendResult
) -> None:
    key = f"{first}{second}"
    if not counter.plan(key, to=key, purpose=Purpose.NEWS):
        return
    (claimed,) = counter.claim()
    counter.mark(claimed, first)
    ended = counter.state(key)
    counter.mark(claimed, second)

    if ended != "planned":
        assert counter.state(key) == ended
    with writing(counter.engine) as session:
        session.delete(counter.row(key))


def test_the_word_of_a_claim_that_ran_out_does_not_undo_the_next_claim(counter: Counter) -> None:
    counter.plan("a", purpose=Purpose.MORNING)
    (slow,) = counter.claim()
    (again,) = counter.claim(LEASED)
    counter.mark(slow, SendResult.LATER, LEASED + 1)

    assert counter.state("a") == "claimed"
    counter.mark(again, SendResult.SENT, LEASED + 2)
    assert counter.state("a") == "sent"


def test_a_slow_send_that_did_arrive_counts(counter: Counter) -> None:
    counter.plan("a", purpose=Purpose.MORNING)
    (slow,) = counter.claim()
    (again,) = counter.claim(LEASED)
    counter.mark(slow, SendResult.SENT, LEASED + 1)
    counter.mark(again, SendResult.UNKNOWN, LEASED + 2)

    assert counter.state("a") == "sent"


def test_a_chat_that_moved_is_tried_at_its_new_number(counter: Counter) -> None:
    counter.plan("a", to="11")
    (claimed,) = counter.claim()
    moved = SendOutcome(SendResult.LATER, moved_to="-100")
    with writing(counter.engine) as session:
        complete(session, claimed, moved, NOW)

    (claimed,) = counter.claim(2)
    assert claimed.outgoing.address == "-100"


def test_the_late_word_of_one_part_is_not_taken_for_the_next(counter: Counter) -> None:
    """Two workers sent the first of two parts; the second part must still go."""
    counter.plan("a")
    one_more = SendOutcome(SendResult.SENT, parts_left=1)
    (first,) = counter.claim()
    (again,) = counter.claim(LEASED)
    with writing(counter.engine) as session:
        complete(session, again, one_more, NOW)
    (second_part,) = counter.claim(LEASED + 1)
    with writing(counter.engine) as session:
        assert complete(session, first, one_more, NOW) is None

    assert second_part.outgoing.part == 1
    assert (counter.state("a"), counter.row("a").parts_sent) == ("claimed", 1)
