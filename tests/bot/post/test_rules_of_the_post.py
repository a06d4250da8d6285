"""The written rules are whole: each purpose and trouble has its own; states never go back."""

from itertools import product

import pytest
from sqlalchemy import Engine, text
from sqlalchemy.exc import DatabaseError

from bot.channels.channel import SendResult
from bot.channels.telegram.outcome import GONE, result_of
from bot.channels.trouble import TROUBLES, Tell, Trouble
from bot.post.pace import PACES
from bot.post.rules import (
    LANES,
    LEASE,
    MAY_BECOME,
    REPEAT_WHEN_UNKNOWN,
    SEND_WITHIN,
    OutboxState,
    Purpose,
)
from tests.bot.post.counter import Counter


def test_every_purpose_has_its_rule_for_a_send_of_unknown_end_and_its_lane() -> None:
    assert set(REPEAT_WHEN_UNKNOWN) == set(LANES) == set(Purpose)
    assert REPEAT_WHEN_UNKNOWN[Purpose.MORNING] == 1
    assert REPEAT_WHEN_UNKNOWN[Purpose.FAREWELL] == 0


def test_every_trouble_has_its_three_facts() -> None:
    assert set(TROUBLES) == set(Trouble)
    assert all(facts.words for facts in TROUBLES.values())
    assert all(facts.for_good for facts in TROUBLES.values() if facts.address_gone)
    told = {trouble for trouble in Trouble if TROUBLES[trouble].tell is Tell.CREW_OWNER}
    assert told == {trouble for trouble in Trouble if TROUBLES[trouble].address_gone}


def test_only_known_refusals_switch_an_address_off() -> None:
    off = {each for each in Trouble if result_of(each) is SendResult.UNREACHABLE}
    texts = {Trouble.OPTED_OUT, Trouble.NO_SUCH_NUMBER, Trouble.NO_TEXTS}
    assert off == set(GONE.values()) | texts | {Trouble.NO_MAILBOX}


def test_a_claim_holds_longer_than_a_send_may_take() -> None:
    assert SEND_WITHIN < LEASE


def test_every_pace_names_its_source() -> None:
    assert all(pace.source for pace in PACES.values())


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
