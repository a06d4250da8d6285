"""What sending teaches about addresses: moved, alive again, or gone, and then who is told."""

from collections.abc import Collection, Sequence
from datetime import datetime

from sqlalchemy.orm import Session

from bot.channels.channel import OutgoingMessage, SendOutcome, SendResult
from bot.channels.send_error import SEND_ERRORS, SendError
from bot.post.asked import not_asked
from bot.post.crew_named import of_their_crew
from bot.post.delivery import gone_now, note_sent, opted_out
from bot.post.message_tables import OutboxRow
from bot.post.outbox import Claimed, plan
from bot.post.recipients import Recipient, next_address
from bot.post.rules import Purpose
from bot.wording.alerts import unreached
from scheduling.records.addresses import address_rows
from scheduling.records.crew_records import CrewRecords
from scheduling.records.people import Person
from scheduling.records.tables import AddressRow, PersonRow, Role


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
    channel, address = message.channel, message.letter.address
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
        not_asked(session, message.channel, message.letter.address, outcome.error, now)


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
    first = gone_now(session, message.channel, message.letter.address, now)
    if outcome.error is SendError.OPTED_OUT:
        opted_out(session, rows[0].person_id, now, running)
        return
    whose = _whose(session, rows, message)
    for address in rows:
        person_row = session.get_one(PersonRow, address.person_id)
        records = CrewRecords(session, person_row.crew_id)
        person = records.person(person_row.id)
        onward = next_address(records, person.id, running)
        if onward is not None and person.id == whose:
            _send_on(session, records, message, person, onward, now)
        if address in first:
            _tell_owner(session, records, message, outcome, person, onward, now, running)


def _go_elsewhere(
    session: Session,
    rows: Sequence[AddressRow],
    message: Claimed,
    now: datetime,
    running: Collection[str],
) -> None:
    """Send what the SMS budget held back over another channel, where its person has one."""
    whose = _whose(session, rows, message)
    records = CrewRecords(session, session.get_one(PersonRow, whose).crew_id)
    person = records.person(whose)
    onward = next_address(records, person.id, running, but_of=(message.channel,))
    if onward is not None and onward.channel in running:
        _send_on(session, records, message, person, onward, now)


def _whose(session: Session, rows: Sequence[AddressRow], message: Claimed) -> int:
    """Give the person a message was for; an address may be in several crews."""
    return session.get_one(OutboxRow, message.id).person_id or rows[0].person_id


def _send_on(
    session: Session,
    records: CrewRecords,
    message: Claimed,
    person: Person,
    to: Recipient,
    now: datetime,
) -> None:
    row = session.get_one(OutboxRow, message.id)
    if row.purpose == Purpose.MORNING:
        # A morning is worded anew: how much may be said hangs on the channel.
        records.update_person(person.id, next_morning_at=now)
        return
    letter = OutgoingMessage(to.address, row.text, message.letter.buttons)
    key = f"{row.key}>{to.channel}"
    plan(session, key, Purpose(row.purpose), to, letter, now, row.useful_until)


def _tell_owner(
    session: Session,
    records: CrewRecords,
    message: Claimed,
    outcome: SendOutcome,
    person: Person,
    onward: Recipient | None,
    now: datetime,
    running: Collection[str],
) -> None:
    owner = next((each for each in records.people() if each.role is Role.OWNER), None)
    to = None if owner is None else next_address(records, owner.id, running)
    if owner is None or to is None or outcome.error is None:
        return
    why = SEND_ERRORS[outcome.error].words
    name = "you" if owner.id == person.id else person.name
    text = unreached(name, message.channel, why, None if onward is None else onward.channel)
    key = f"unreached:{person.id}:{message.channel}:{now.isoformat()}"
    letter = OutgoingMessage(to.address, of_their_crew(session, owner.id, text))
    plan(session, key, Purpose.NEWS, to, letter, now)
