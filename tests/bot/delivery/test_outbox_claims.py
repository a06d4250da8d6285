"""Messages out are planned once and claimed one at a time, in their order."""

from bot.channels.channel import SendResult
from bot.delivery.rules import LEASE, Purpose
from tests.bot.delivery.counter import EGGS, Counter

LEASED = LEASE.total_seconds()


def test_a_purpose_is_queued_once(counter: Counter) -> None:
    assert counter.plan("morning:1:2027-05-12")
    assert not counter.plan("morning:1:2027-05-12", at=5)

    counter.send(SendResult.SENT)
    assert not counter.plan("morning:1:2027-05-12", at=10)
    assert counter.claim(10) == []


def test_a_claimed_letter_is_what_was_planned(counter: Counter) -> None:
    counter.plan("a", to="11")

    (claimed,) = counter.claim()

    assert (claimed.outgoing.address, claimed.outgoing.text) == ("11", "a")
    assert claimed.outgoing.buttons == EGGS


def test_one_address_gets_its_messages_one_at_a_time_in_order(counter: Counter) -> None:
    for key in ("a", "b", "c"):
        counter.plan(key)

    (first,) = counter.claim()
    assert counter.claim() == []
    counter.mark(first, SendResult.SENT)

    assert counter.claimed_texts() == ["b"]


def test_other_addresses_do_not_wait(counter: Counter) -> None:
    counter.plan("a", to="11")
    counter.plan("b", to="11")
    counter.plan("c", to="12")

    assert counter.claimed_texts() == ["a", "c"]


def test_a_message_that_waits_to_be_tried_again_holds_back_its_own_address_only(
    counter: Counter,
) -> None:
    counter.plan("a", to="11")
    counter.send(SendResult.LATER, wait=30)
    counter.plan("b", to="11")
    counter.plan("c", to="12")

    assert counter.claimed_texts(1) == ["c"]
    assert counter.claimed_texts(30) == ["a", "c"]  # the lease of c ran out


def test_the_same_address_on_another_channel_is_another_address(counter: Counter) -> None:
    counter.plan("a", channel="console")
    counter.plan("b", channel="phone")

    assert counter.claimed_texts() == ["b"]


def test_a_channel_that_does_not_run_keeps_its_messages_and_holds_up_nobody(
    counter: Counter,
) -> None:
    for number in range(60):
        counter.plan(f"console {number}", to=str(number), channel="console")
    counter.plan("a")

    assert counter.claimed_texts() == ["a"]
    assert counter.state("console 0") == "planned"
    assert "console 0" in counter.claimed_texts(channels=("console",))


def test_only_what_goes_to_one_address_can_be_claimed(counter: Counter) -> None:
    counter.plan("a", to="11")
    counter.plan("b", to="12")

    assert [c.outgoing.text for c in counter.claim(only_to="12")] == ["b"]


def test_a_claim_holds_until_its_lease_ends(counter: Counter) -> None:
    counter.plan("a")
    counter.claim()

    assert counter.claim(LEASED - 0.001) == []
    assert counter.claimed_texts(LEASED) == ["a"]


def test_a_claim_lost_in_a_crash_is_taken_again_as_often_as_its_purpose_may_be_repeated(
    counter: Counter,
) -> None:
    counter.plan("morning", to="11", purpose=Purpose.MORNING)
    counter.plan("news", to="12", purpose=Purpose.NEWS)

    assert counter.claimed_texts() == ["morning", "news"]
    assert counter.claimed_texts(LEASED) == ["morning"]
    assert counter.state("news") == "unknown"
    assert counter.claimed_texts(2 * LEASED) == []
    assert counter.state("morning") == "unknown"


def test_what_is_given_up_frees_the_next_in_the_same_claim(counter: Counter) -> None:
    counter.plan("news", purpose=Purpose.NEWS)
    counter.plan("a")
    counter.claim()

    assert counter.claimed_texts(LEASED) == ["a"]
