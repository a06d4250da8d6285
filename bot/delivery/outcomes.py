"""What the end of a send means for its address, and whether the message is sent on elsewhere."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy.orm import Session

from bot.channels.channel import OutgoingMessage, SendOutcome, SendResult
from bot.channels.send_error import SendError
from bot.delivery.claims import Claimed
from bot.delivery.delivery_reports import note_sent
from bot.delivery.message_tables import OutboxRow
from bot.delivery.notices_to_owners import (
    gone_now,
    not_asked,
    opted_out,
    tell_owner_of_gone_address,
)
from bot.delivery.outbox import Recipient, next_address, send_on
from bot.delivery.rules import Purpose
from scheduling.records.addresses import address_rows
from scheduling.records.crew_records import CrewRecords
from scheduling.records.tables import AddressRow, PersonRow


@dataclass(frozen=True)
class _Ended:
    """A send that ended, and the transaction in which what follows from it is done."""

    session: Session
    row: OutboxRow
    message: Claimed
    outcome: SendOutcome
    now: datetime
    running: Collection[str]


def apply_outcome(
    session: Session,
    row: OutboxRow,
    message: Claimed,
    outcome: SendOutcome,
    now: datetime,
    running: Collection[str] = (),
) -> None:
    """Write down that an address moved, took a message, or takes no more messages.

    A message that met an address which is gone goes to the person's next one, and the owner of
    the crew is told once. One that the SMS budget held back goes over another channel too.

    Args:
        session: the transaction.
        row: the message, completed.
        message: what was sent.
        outcome: how that ended.
        now: aware instant.
        running: names of the channels that run, whose addresses go before others.
    """
    ended = _Ended(session, row, message, outcome, now, running)
    addresses = address_rows(session, message.channel, message.outgoing.address)
    _note_refusal(ended, asked=row.purpose == Purpose.INVITE or not addresses)
    if not addresses:
        return
    if outcome.result is SendResult.UNREACHABLE:
        _gone(ended, addresses)
    note_sent(session, row, now, running)
    if outcome.error is SendError.USED_UP:
        _go_elsewhere(ended, addresses)
    _moved_or_alive(ended, addresses)


def _note_refusal(ended: _Ended, *, asked: bool) -> None:
    """Let whoever asked a number know that it was not asked."""
    gone, error = ended.outcome.result is SendResult.UNREACHABLE, ended.outcome.error
    if asked and (gone or error is SendError.USED_UP):
        address = ended.message.outgoing.address
        not_asked(ended.session, ended.message.channel, address, error, ended.now)


def _moved_or_alive(ended: _Ended, addresses: Sequence[AddressRow]) -> None:
    moved_to = ended.outcome.moved_to
    moves = moved_to and not address_rows(ended.session, ended.message.channel, moved_to)
    for address in addresses:
        address.address = moved_to if moves and moved_to else address.address
        if ended.outcome.result is SendResult.SENT:
            address.unreachable_since = None


def _gone(ended: _Ended, addresses: Sequence[AddressRow]) -> None:
    """Mark an address as gone, in each of its crews; the message goes on to its own person."""
    session, error, channel = ended.session, ended.outcome.error, ended.message.channel
    first = gone_now(session, channel, ended.message.outgoing.address, ended.now)
    if error is SendError.OPTED_OUT:
        opted_out(session, addresses[0].person_id, ended.now, ended.running)
        return
    whose = _whose(ended, addresses)
    for address in addresses:
        holder = session.get_one(PersonRow, address.person_id)
        if holder.id == whose:
            _send_to(ended, holder, _next_address(ended, holder))
        if address in first:
            tell_owner_of_gone_address(session, holder, channel, error, ended.now, ended.running)


def _go_elsewhere(ended: _Ended, addresses: Sequence[AddressRow]) -> None:
    """Send what the SMS budget held back over another channel, where its person has one."""
    whose = ended.session.get_one(PersonRow, _whose(ended, addresses))
    onward = _next_address(ended, whose, but_of=(ended.message.channel,))
    if onward is not None and onward.channel in ended.running:
        _send_to(ended, whose, onward)


def _whose(ended: _Ended, addresses: Sequence[AddressRow]) -> int:
    """Give the person a message was for; an address may be in several crews."""
    return ended.row.person_id or addresses[0].person_id


def _next_address(
    ended: _Ended, whose: PersonRow, but_of: Collection[str] = ()
) -> Recipient | None:
    records = CrewRecords(ended.session, whose.crew_id)
    return next_address(records, whose.id, ended.running, but_of)


def _send_to(ended: _Ended, whose: PersonRow, to: Recipient | None) -> None:
    if to is None or ended.row.purpose == Purpose.EDIT:
        return
    if ended.row.purpose == Purpose.MORNING:
        # A morning is worded anew: how much may be said hangs on the channel.
        records = CrewRecords(ended.session, whose.crew_id)
        records.update_person(whose.id, next_morning_at=ended.now)
        return
    outgoing = OutgoingMessage(to.address, ended.row.text, ended.message.outgoing.buttons)
    send_on(ended.session, ended.row, to, outgoing, ended.now)
