"""Pruning: what is done is deleted after a while, so that no database grows for ever.

The log of entries is not, nor what is asked of long after: ids of messages in that may be sent
anew, and numbers that want silence.
"""

from collections.abc import Callable
from datetime import datetime, timedelta
from time import monotonic, sleep

from sqlalchemy import ColumnElement, Engine, delete, select
from sqlalchemy.orm import InstrumentedAttribute, Session

from bot.delivery.inbox import InboxState
from bot.delivery.message_tables import DeliveryRow, InboxRow, OutboxRow, is_open
from bot.program_log import log_of
from scheduling.records.engine import writing
from scheduling.records.number_tables import StrangerRow

log = log_of(__name__)

KEPT = timedelta(days=90)
"""How long what is done is kept unless the owner says otherwise."""

AT_ONCE = 500
"""Rows of a table in one transaction, so that no reply waits long behind it."""

PRUNE_SECONDS = 10
"""For how long a tick prunes at most; the next one goes on."""


def prune(
    engine: Engine,
    now: datetime,
    kept: timedelta = KEPT,
    going_on: Callable[[], bool] = lambda: True,
) -> int:
    """Delete what was done long ago, a few rows at a time; gives how many rows that were.

    After each few it rests for as long as they took, so that others can write.

    Args:
        engine: the database.
        now: aware instant.
        kept: how long what is done is kept.
        going_on: asked before each few rows.
    """
    pruned, until = 0, monotonic() + PRUNE_SECONDS
    while going_on() and (began := monotonic()) < until:
        with writing(engine) as session:
            some = _prune_some(session, now - kept)
        if not some:
            break
        pruned += some
        sleep(monotonic() - began)
    if pruned:
        log.info("what was done long ago was deleted", number=pruned)
    return pruned


def _prune_some(session: Session, before: datetime) -> int:
    set_aside = InboxRow.state.not_in((InboxState.WAITING, InboxState.DONE))
    return (
        _delete_oldest(session, OutboxRow.id, OutboxRow.ended_at < before, ~is_open())
        + _delete_oldest(session, DeliveryRow.id, DeliveryRow.reported_at < before)
        + _delete_oldest(session, InboxRow.id, InboxRow.received_at < before, set_aside)
        + _delete_strangers(session, before)
    )


def _delete_oldest(
    session: Session, number: InstrumentedAttribute[int], *which: ColumnElement[bool]
) -> int:
    # Rows that somebody has in hand are left to the next time.
    some = select(number).where(*which).limit(AT_ONCE).with_for_update(skip_locked=True)
    found = list(session.scalars(some))
    if found:
        session.execute(delete(number.class_).where(number.in_(found)))
    return len(found)


def _delete_strangers(session: Session, before: datetime) -> int:
    """Forget numbers that wrote long ago, but none that wants silence."""
    old = (StrangerRow.answered_at < before) & StrangerRow.refused_at.is_(None)
    gone = delete(StrangerRow).where(old).returning(StrangerRow.address)
    return len(session.scalars(gone).all())
