"""How a claimed send ended: written into its row, or planned anew."""

from datetime import datetime, timedelta
from zlib import crc32

from sqlalchemy.orm import Session

from bot.channels.channel import SendOutcome, SendResult
from bot.post.outbox import Claimed
from bot.post.rate_limit import hold
from bot.post.rules import REPEAT_WHEN_UNKNOWN, OutboxState, Purpose, SendQueue, back_off
from bot.post.tables import OutboxRow

_ENDED = {
    SendResult.SENT: OutboxState.SENT,
    SendResult.REFUSED: OutboxState.FAILED,
    SendResult.UNREACHABLE: OutboxState.FAILED,
    SendResult.UNKNOWN: OutboxState.UNKNOWN,
}


def mark(session: Session, claimed: Claimed, outcome: SendOutcome, now: datetime) -> bool:
    """Write down how a claimed send ended; False when that no longer matters.

    When the claim ran out and the message was claimed anew, only that it arrived still counts.
    """
    row = session.get_one(OutboxRow, claimed.id, with_for_update=True)
    if outcome.wait:
        hold(session, claimed.channel, claimed.letter.address, now, now + outcome.wait)
    if not _counts(session, row, claimed, outcome):
        return False
    row.carrier_said, row.error = outcome.said, outcome.error
    row.address = outcome.moved_to or row.address
    if outcome.result is SendResult.SENT and outcome.parts_left:
        row.parts_sent, row.doubts = row.parts_sent + 1, 0
        _plan_anew(row, now)
    elif outcome.result is SendResult.LATER:
        _plan_anew(row, now + (_wait(row) if outcome.wait is None else outcome.wait))
    elif outcome.result is SendResult.UNKNOWN and _may_repeat(row):
        row.doubts += 1
        _plan_anew(row, now + _wait(row))
    else:
        row.state, row.ended_at = _ENDED[outcome.result], now
        row.carrier_id = outcome.carrier_id
    return True


def _counts(session: Session, row: OutboxRow, claimed: Claimed, outcome: SendOutcome) -> bool:
    if row.parts_sent != claimed.letter.part:
        return False
    arrived = outcome.result is SendResult.SENT
    if row.state == OutboxState.PLANNED and arrived and row.attempts == claimed.attempt:
        # Its claim ran out and nobody took it since.
        row.state = OutboxState.CLAIMED
        session.flush()
    overtaken = row.attempts != claimed.attempt and not arrived
    return row.state == OutboxState.CLAIMED and not overtaken


def _may_repeat(row: OutboxRow) -> bool:
    return row.doubts < REPEAT_WHEN_UNKNOWN[Purpose(row.purpose)]


def _wait(row: OutboxRow) -> timedelta:
    # Another share for each message and try, and the same in every run.
    spread = crc32(f"{row.key}:{row.attempts}".encode()) / 2**32
    return back_off(SendQueue(row.queue), row.attempts - row.parts_sent, spread)


def _plan_anew(row: OutboxRow, at: datetime) -> None:
    row.state, row.lease_until, row.next_try_at = OutboxState.PLANNED, None, at
