"""How fast carriers let us send: in all, and to one address; shared by every worker."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import bindparam, delete, select
from sqlalchemy.orm import Session

from bot.channels.traits import RateLimit
from bot.post.message_tables import RateLimitRow
from scheduling.records.engine import connection_of
from scheduling.records.upsert import upsert

AHEAD = timedelta(seconds=0.5)
"""How long before its turn a message may be claimed."""

KEPT = timedelta(minutes=10)
"""For how long an address is remembered after its turn has passed."""

CATCH_UP_SECONDS = 0.01
"""How late a send may begin for the next to follow as if it had begun in time.

Without it every late waking would put all that follows back. It is less than the time between two
sends, so that no second sees one more than the carrier takes.
"""

_EVERYBODY = ""


@dataclass(frozen=True)
class Turn:
    """When a send may begin; ``held`` tells whom to leave alone until then, if it is not now."""

    at: datetime
    everybody_waits: bool = False
    address_waits: bool = False


def spaced_from(last: float | None, rate_limit: RateLimit, now: float) -> float:
    """Give the instant from which the next send is spaced, by a steady clock in seconds.

    Args:
        last: what was given for the send before; None for the first.
        rate_limit: that of the carrier.
        now: when this send begins, not sooner than its turn.

    """
    turn = now if last is None else last + rate_limit.each.total_seconds()
    return max(turn, now - CATCH_UP_SECONDS)


def take_turn_to_send(
    session: Session, channel: str, address: str, now: datetime, rate_limit: RateLimit | None
) -> Turn:
    """Give the next free instant to a message, and note that it is taken.

    When the carrier asked for a wait, or the address had a message just now, nothing is noted.
    """
    turn = next_turn(session, channel, address, now, rate_limit)
    if not (turn.everybody_waits or turn.address_waits):
        note_turn(session, channel, address, now, turn, rate_limit)
    return turn


def next_turn(
    session: Session, channel: str, address: str, now: datetime, rate_limit: RateLimit | None
) -> Turn:
    """Give the next free instant for a message; with a rate limit nobody else gets it meanwhile."""
    rows = _rows(session, channel, address, locked=rate_limit is not None)
    everybody, own = rows.get(_EVERYBODY), rows.get(address)
    free = max(now, everybody) if everybody else now
    if free > now + AHEAD:
        return Turn(free, everybody_waits=True)
    if own is not None and own > free:
        return Turn(own, address_waits=True)
    return Turn(free)


def note_turn(
    session: Session,
    channel: str,
    address: str,
    now: datetime,
    turn: Turn,
    rate_limit: RateLimit | None,
) -> None:
    """Note that a turn was taken, and so from when on the next may be."""
    if rate_limit is None:
        return
    turns = {_EVERYBODY: turn.at + rate_limit.each, address: turn.at + rate_limit.same_address}
    kept = (
        {"channel": channel, "address": whom, "free_at": at, "noted_at": now}
        for whom, at in turns.items()
    )
    upsert(session, RateLimitRow, *kept)


def hold(session: Session, channel: str, address: str, now: datetime, until: datetime) -> None:
    """Leave an address alone for as long as the carrier asked.

    The carrier does not say whether one chat was meant or all. While one address waits, a second
    one that is told to wait shows that all are meant.
    """
    asked = RateLimitRow.asked_until > now
    others = select(RateLimitRow).where(RateLimitRow.channel == channel, asked)
    others = others.where(RateLimitRow.address.not_in([address, _EVERYBODY]))
    everybody = session.scalar(others.limit(1)) is not None
    rows = _rows(session, channel, address, locked=True)
    for whom in (_EVERYBODY, address) if everybody else (address,):
        row = rows.get(whom)
        free = max(until, row) if row else until
        asked_of = {"channel": channel, "address": whom, "free_at": free}
        upsert(session, RateLimitRow, {**asked_of, "asked_until": until, "noted_at": now})


def forget_passed(session: Session, now: datetime) -> None:
    """Forget addresses whose turn passed long ago."""
    session.execute(delete(RateLimitRow).where(RateLimitRow.free_at < now - KEPT))


_FREE_AT = (
    select(RateLimitRow.address, RateLimitRow.free_at)
    .where(RateLimitRow.channel == bindparam("channel"))
    .where(RateLimitRow.address.in_([_EVERYBODY, bindparam("address")]))
    .order_by(RateLimitRow.address)
)
_FREE_AT_LOCKED = _FREE_AT.with_for_update()


def _rows(session: Session, channel: str, address: str, locked: bool) -> dict[str, datetime]:
    """Read from when on everybody and the address may be sent to, where that is noted."""
    asked = _FREE_AT_LOCKED if locked else _FREE_AT
    found = connection_of(session).execute(asked, {"channel": channel, "address": address})
    return dict(found.all())
