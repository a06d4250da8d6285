"""Claiming a message in the very transaction that plans it, so that it can leave at once."""

from datetime import datetime

from sqlalchemy import bindparam, exists, update
from sqlalchemy.orm import Session

from bot.post.outbox import IS_OPEN, Claimed, Planned
from bot.post.rate_limit import RateLimit, next_turn, note_turn
from bot.post.rules import LEASE, OutboxState
from bot.post.tables import OutboxRow
from scheduling.records.connection import connection_of
from scheduling.records.tables import table_of

_THIS = table_of(OutboxRow)
_EARLIER = _THIS.alias("earlier")
_WAITS_BEHIND = (
    exists()
    .where(_EARLIER.c.channel == _THIS.c.channel, _EARLIER.c.address == _THIS.c.address)
    .where(_EARLIER.c.queue == _THIS.c.queue, _EARLIER.c.id < _THIS.c.id)
    .where(_EARLIER.c.state.in_(IS_OPEN))
)
_CLAIM = (
    update(_THIS)
    .where(_THIS.c.id == bindparam("row"), ~_WAITS_BEHIND)
    .values(state=OutboxState.CLAIMED, lease_until=bindparam("until"), attempts=1)
)


def claim_planned(
    session: Session, planned: Planned, now: datetime, rate_limit: RateLimit | None
) -> Claimed | None:
    """Claim an answer that this transaction has planned, if its turn to be sent has come.

    Otherwise it stays planned, for the rounds of the post: behind an earlier one to the same
    address, or while the carrier or its rate limit asks for a wait.
    """
    channel, address = planned.channel, planned.letter.address
    turn = next_turn(session, channel, address, now, rate_limit)
    if turn.everybody_waits or turn.address_waits:
        return None
    until = turn.at + LEASE
    claimed = connection_of(session).execute(_CLAIM, {"row": planned.id, "until": until})
    if claimed.rowcount != 1:
        return None
    note_turn(session, channel, address, now, turn, rate_limit)
    return Claimed(planned.id, channel, planned.letter, 1, turn.at, until, planned.purpose)
