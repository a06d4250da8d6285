"""What a send teaches about an address: moved, alive again, or gone, and then who is told."""

from collections.abc import Collection, Sequence
from datetime import datetime

from sqlalchemy.orm import Session

from bot.channels.channel import OutgoingMessage, SendOutcome, SendResult
from bot.channels.send_error import SendError
from bot.delivery.delivery_reports import gone_now, note_sent, opted_out
from bot.delivery.message_tables import OutboxRow
from bot.delivery.notices_to_owners import not_asked, tell_owner_of_gone_address
from bot.delivery.outbox import Claimed
from bot.delivery.recipients import Recipient, next_address
from bot.delivery.rules import Purpose
from bot.delivery.send_on import send_on
from scheduling.records.addresses import address_rows
from scheduling.records.crew_records import CrewRecords
from scheduling.records.tables import AddressRow, PersonRow


def apply_outcome(
    session: Session,
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
        message: what was sent.
        outcome: how that ended.
        now: aware instant.
        running: names of the channels that run, whose addresses go before others.

    """
    channel, address = message.channel, message.outgoing.address
    rows = address_rows(session, channel, address)
    _note_refusal(session, rows, message, outcome, now)
    if outcome.result is SendResult.UNREACHABLE and rows:
        _gone(session, rows, message, outcome, now, running)
    if rows:
        note_sent(session, message.id, now, running)
        if outcome.error is SendError.USED_UP:
            _go_elsewhere(session, rows, message, now, running)
        _moved_or_alive(session, rows, channel, outcome)


def _note_refusal(
    session: Session,
    rows: Sequence[AddressRow],
    message: Claimed,
    outcome: SendOutcome,
    now: datetime,
) -> None:
    """Let whoever asked a number know that it was not asked."""
    gone, held_back = (
        outcome.result is SendResult.UNREACHABLE,
        outcome.error is SendError.USED_UP,
    )
    if not (gone or held_back):
        return
    asked = session.get_one(OutboxRow, message.id).purpose == Purpose.INVITE
    if asked or not rows:
        not_asked(session, message.channel, message.outgoing.address, outcome.error, now)


def _moved_or_alive(
    session: Session, rows: Sequence[AddressRow], channel: str, outcome: SendOutcome
) -> None:
    moves = outcome.moved_to and not address_rows(session, channel, outcome.moved_to)
    for row in rows:
        row.address = outcome.moved_to if moves and outcome.moved_to else row.address
        if outcome.result is SendResult.SENT:
            row.unreachable_since = None


def _gone(
    session: Session,
    rows: Sequence[AddressRow],
    message: Claimed,
    outcome: SendOutcome,
    now: datetime,
    running: Collection[str],
) -> None:
    """Mark an address as gone, in each of its crews; the message goes on to its own person."""
    first = gone_now(session, message.channel, message.outgoing.address, now)
    if outcome.error is SendError.OPTED_OUT:
        opted_out(session, rows[0].person_id, now, running)
        return
    whose = _whose(session, rows, message)
    for address in rows:
        holder = session.get_one(PersonRow, address.person_id)
        if holder.id == whose:
            _send_on(session, message, holder, now, running)
        if address in first:
            tell_owner_of_gone_address(
                session, holder, message.channel, outcome.error, now, running
            )


def _go_elsewhere(
    session: Session,
    rows: Sequence[AddressRow],
    message: Claimed,
    now: datetime,
    running: Collection[str],
) -> None:
    """Send what the SMS budget held back over another channel, where its person has one."""
    whose = session.get_one(PersonRow, _whose(session, rows, message))
    records = CrewRecords(session, whose.crew_id)
    onward = next_address(records, whose.id, running, but_of=(message.channel,))
    if onward is not None and onward.channel in running:
        _send_to(session, message, whose, onward, now)


def _whose(session: Session, rows: Sequence[AddressRow], message: Claimed) -> int:
    """Give the person a message was for; an address may be in several crews."""
    return session.get_one(OutboxRow, message.id).person_id or rows[0].person_id


def _send_on(
    session: Session, message: Claimed, whose: PersonRow, now: datetime, running: Collection[str]
) -> None:
    onward = next_address(CrewRecords(session, whose.crew_id), whose.id, running)
    if onward is not None:
        _send_to(session, message, whose, onward, now)


def _send_to(
    session: Session, message: Claimed, whose: PersonRow, to: Recipient, now: datetime
) -> None:
    row = session.get_one(OutboxRow, message.id)
    if row.purpose == Purpose.MORNING:
        # A morning is worded anew: how much may be said hangs on the channel.
        CrewRecords(session, whose.crew_id).update_person(whose.id, next_morning_at=now)
        return
    outgoing = OutgoingMessage(to.address, row.text, message.outgoing.buttons)
    send_on(session, row, to, outgoing, now)
