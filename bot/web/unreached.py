"""Who was not reached, over which channel and why, as whoever runs the machine is told."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from bot.channels.send_error import SEND_ERRORS, SendError
from bot.delivery.message_tables import OutboxRow
from bot.delivery.rules import OutboxState
from scheduling.records.tables import AddressRow, PersonRow

LATELY = timedelta(days=7)
"""For how long a message that failed is told of where its address takes others."""


@dataclass(frozen=True)
class Unreached:
    """Somebody whom a message did not reach.

    Attributes:
        number: the person's; 0 for a number that has not joined.
        name: the person's; empty for such a one.
        channel: over which it was sent.
        since: aware instant; of an address that takes nothing, when that began.
        why: what kept the newest message from arriving; None if it is not known any more.
    """

    number: int
    name: str
    channel: str
    since: datetime
    why: SendError | None

    @property
    def words(self) -> str:
        """Why, in words."""
        return "why is not kept" if self.why is None else SEND_ERRORS[self.why].words


def who_was_not_reached(session: Session, now: datetime) -> tuple[Unreached, ...]:
    """Give who is not reached, or was not lately, the newest first."""
    failed = {(each.number, each.channel): each for each in _failed(session)}
    gone = {(each.number, each.channel): each for each in _gone(session, failed)}
    lately = {key: each for key, each in failed.items() if each.since > now - LATELY}
    return tuple(sorted((lately | gone).values(), key=lambda each: each.since, reverse=True))


def _failed(session: Session) -> Iterator[Unreached]:
    """Give of each person and channel the newest message that failed for good."""
    newest = (
        select(func.max(OutboxRow.id))
        .where(OutboxRow.state == OutboxState.FAILED)
        .group_by(OutboxRow.person_id, OutboxRow.channel)
    )
    found = (
        select(PersonRow.id, PersonRow.name, OutboxRow)
        .select_from(OutboxRow)
        .outerjoin(PersonRow, PersonRow.id == OutboxRow.person_id)
        .where(OutboxRow.id.in_(newest))
    )
    for number, name, row in session.execute(found):
        why = None if row.error is None else SendError(row.error)
        yield Unreached(number or 0, name or "", row.channel, row.ended_at or row.planned_at, why)


def _gone(session: Session, failed: dict[tuple[int, str], Unreached]) -> Iterator[Unreached]:
    """Give whose address takes nothing any more."""
    found = (
        select(PersonRow.id, PersonRow.name, AddressRow.channel, AddressRow.unreachable_since)
        .join(PersonRow, PersonRow.id == AddressRow.person_id)
        .where(AddressRow.unreachable_since.is_not(None))
    )
    for number, name, channel, since in session.execute(found):
        if since is not None:
            known = failed.get((number, channel))
            yield Unreached(number, name, channel, since, known.why if known else None)
