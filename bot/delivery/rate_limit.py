"""How fast carriers let us send: in all, and to one address; shared by every worker."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import bindparam, delete, func, select
from sqlalchemy.orm import Session

from bot.channels.traits import RateLimit
from bot.delivery.message_tables import RateLimitRow
from bot.delivery.rules import SendQueue
from scheduling.records.engine import connection_of
from scheduling.records.upsert import upsert

AHEAD = timedelta(seconds=0.5)
"""How long before its slot an answer may be claimed."""

KEPT = timedelta(minutes=10)
"""For how long an address is remembered after its slot has passed."""

CATCH_UP_SECONDS = 0.01
"""How late a send may begin for the next to follow as if it had begun in time.

Without it every late waking would put all that follows back. It is less than the time between two
sends, so that no second sees one more than the carrier takes.
"""

_EVERYBODY = ""


@dataclass(frozen=True)
class SendSlot:
    """When a send may begin; ``held`` tells whom to leave alone until then, if it is not now."""

    at: datetime
    everybody_waits: bool = False
    address_waits: bool = False


def spaced_from(last: float | None, rate_limit: RateLimit, now: float) -> float:
    """Give the instant from which the next send is spaced, by a steady clock in seconds.

    Args:
        last: what was given for the send before; None for the first.
        rate_limit: that of the carrier.
        now: when this send begins, not sooner than its slot.
    """
    slot = now if last is None else last + rate_limit.each.total_seconds()
    return max(slot, now - CATCH_UP_SECONDS)


def ahead_of(queue: SendQueue, rate_limit: RateLimit | None) -> timedelta:
    """Give how long before its slot a message of a queue may be claimed.

    For a reminder it is hardly more than one slot: an answer that comes meanwhile has the next.
    """
    if queue is SendQueue.ANSWERS or rate_limit is None:
        return AHEAD
    return min(AHEAD, 1.5 * rate_limit.each)


def take_slot(
    session: Session,
    channel: str,
    address: str,
    now: datetime,
    rate_limit: RateLimit | None,
    ahead: timedelta = AHEAD,
) -> SendSlot:
    """Give the next free instant to a message, and note that it is taken.

    When it is further ahead, the carrier asked for a wait, or the address had a message just now,
    nothing is noted.
    """
    slot = next_slot(session, channel, address, now, rate_limit, ahead)
    if not (slot.everybody_waits or slot.address_waits):
        note_slot(session, channel, address, now, slot, rate_limit)
    return slot


def next_slot(
    session: Session,
    channel: str,
    address: str,
    now: datetime,
    rate_limit: RateLimit | None,
    ahead: timedelta = AHEAD,
) -> SendSlot:
    """Give the next free instant for a message; with a rate limit nobody else gets it meanwhile."""
    rows = _rows(session, channel, address, locked=rate_limit is not None)
    everybody, own = rows.get(_EVERYBODY), rows.get(address)
    free = max(now, everybody) if everybody else now
    if free > now + ahead:
        return SendSlot(free, everybody_waits=True)
    if own is not None and own > free:
        return SendSlot(own, address_waits=True)
    return SendSlot(free)


def free_again(session: Session, channels: Collection[str], now: datetime) -> datetime | None:
    """Give when the next slot of any of these channels is, where one before it is taken already.

    A wait that the carrier asked for is none of them: it lasts longer than slots are taken ahead.
    """
    taken = select(func.min(RateLimitRow.free_at)).where(RateLimitRow.address == _EVERYBODY)
    taken = taken.where(RateLimitRow.channel.in_(channels))
    return session.scalar(taken.where(RateLimitRow.free_at.between(now, now + AHEAD)))


def note_slot(
    session: Session,
    channel: str,
    address: str,
    now: datetime,
    slot: SendSlot,
    rate_limit: RateLimit | None,
) -> None:
    """Note that a slot was taken, and so from when on the next may be."""
    if rate_limit is None:
        return
    slots = {_EVERYBODY: slot.at + rate_limit.each, address: slot.at + rate_limit.same_address}
    kept = (
        {"channel": channel, "address": whom, "free_at": at, "noted_at": now}
        for whom, at in slots.items()
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
    """Forget addresses whose slot passed long ago."""
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
