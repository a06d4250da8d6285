"""The written rules are whole: each purpose and trouble has its own; states never go back."""

from itertools import product

import pytest
from sqlalchemy import Engine, text
from sqlalchemy.exc import DatabaseError

from bot.channels.channel import SendResult
from bot.channels.outcome import result_of
from bot.channels.send_error import SEND_ERRORS, SendError, Tell
from bot.channels.telegram.telegram_outcome import GONE
from bot.channels.traits import KNOWN_CHANNELS
from bot.delivery.rules import (
    LEASE,
    MAY_BECOME,
    QUEUES,
    REPEAT_WHEN_UNKNOWN,
    SEND_WITHIN,
    OutboxState,
    Purpose,
)
from tests.bot.delivery.counter import Counter


def test_every_purpose_has_its_rule_for_a_send_of_unknown_end_and_its_queue() -> None:
    assert set(REPEAT_WHEN_UNKNOWN) == set(QUEUES) == set(Purpose)
    assert REPEAT_WHEN_UNKNOWN[Purpose.MORNING] == 1
    assert REPEAT_WHEN_UNKNOWN[Purpose.FAREWELL] == 0


@pytest.mark.parametrize("purpose", Purpose)
def test_what_somebody_may_not_get_twice_is_never_repeated(
    counter: Counter, purpose: Purpose
) -> None:
    """Who did not say yes is asked once only; who said stop is told so once, news comes once."""
    once = (Purpose.INVITE, Purpose.FAREWELL, Purpose.NEWS)
    counter.plan("a", purpose=purpose)
    sends = 0
    for at in (0, 3600):
        for claimed in counter.claim(at):
            sends += 1
            counter.mark(claimed, SendResult.UNKNOWN, at + 1)

    assert sends == (1 if purpose in once else 2)
    assert counter.state("a") == "unknown"


def test_every_send_error_has_its_three_facts() -> None:
    assert set(SEND_ERRORS) == set(SendError)
    assert all(facts.words for facts in SEND_ERRORS.values())
    assert all(facts.for_good for facts in SEND_ERRORS.values() if facts.address_gone)
    told = {
        send_error for send_error in SendError if SEND_ERRORS[send_error].tell is Tell.CREW_OWNER
    }
    assert told == {send_error for send_error in SendError if SEND_ERRORS[send_error].address_gone}


def test_only_known_refusals_switch_an_address_off() -> None:
    off = {each for each in SendError if result_of(each) is SendResult.UNREACHABLE}
    texts = {SendError.OPTED_OUT, SendError.NO_SUCH_NUMBER, SendError.NO_TEXTS}
    assert off == set(GONE.values()) | texts | {SendError.NO_MAILBOX}


def test_a_claim_holds_longer_than_a_send_may_take() -> None:
    assert SEND_WITHIN < LEASE


def test_every_rate_limit_names_its_source() -> None:
    limits = [each.rate_limit for each in KNOWN_CHANNELS.values() if each.rate_limit is not None]
    assert limits
    assert all(limit.source for limit in limits)


def way_to(state: OutboxState) -> list[OutboxState]:
    """The states on the way from planned to one."""
    if state is OutboxState.PLANNED:
        return []
    direct = state in MAY_BECOME[OutboxState.PLANNED]
    return [state] if direct else [OutboxState.CLAIMED, state]


def change(engine: Engine, state: OutboxState) -> None:
    with engine.begin() as connection:
        connection.execute(text("UPDATE outbox SET state = :state"), {"state": str(state)})


@pytest.mark.parametrize(("old", "new"), list(product(OutboxState, OutboxState)))
def test_the_database_lets_a_message_go_only_the_ways_of_the_table(
    counter: Counter, old: OutboxState, new: OutboxState
) -> None:
    counter.plan("a")
    for state in way_to(old):
        change(counter.engine, state)
    if new is old or new in MAY_BECOME[old]:
        change(counter.engine, new)
        assert counter.state("a") == new
    else:
        with pytest.raises(DatabaseError, match="never goes backwards"):
            change(counter.engine, new)
        assert counter.state("a") == old
