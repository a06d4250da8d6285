"""What sending teaches about addresses: moved, alive again, or gone, and then who is told."""

from collections.abc import Collection
from datetime import datetime

from sqlalchemy.orm import Session

from bot.channels.channel import Letter, SendOutcome, SendResult
from bot.channels.trouble import TROUBLES, Trouble
from bot.post.asked import not_asked
from bot.post.delivery import note_sent, opted_out
from bot.post.outbox import Claimed, Purpose, Recipient, plan
from bot.post.reach import next_address
from bot.post.tables import OutboxRow
from bot.wording.unreached import unreached
from scheduling.records.addresses import address_row
from scheduling.records.gateway import CrewRecords
from scheduling.records.people import Person
from scheduling.records.tables import AddressRow, PersonRow, Role


def note_outcome(
    session: Session,
    message: Claimed,
    outcome: SendOutcome,
    now: datetime,
    running: Collection[str] = (),
) -> None:
    """Write down that an address moved, took a message, or takes no more messages.

    A message that met an address which is gone goes to the person's next one, and the owner of
    the crew is told once. One that the ceiling held back goes over another channel too.

    Args:
        session: the transaction.
        message: what was sent.
        outcome: how that ended.
        now: aware instant.
        running: names of the channels that run, whose addresses go before others.

    """
    row = address_row(session, message.channel, message.letter.address)
    refused = outcome.result is SendResult.UNREACHABLE or outcome.trouble is Trouble.USED_UP
    if row is None and refused:
        not_asked(session, message.channel, message.letter.address, outcome.trouble, now)
    if outcome.result is SendResult.UNREACHABLE:
        _gone(session, row, message, outcome, now, running)
    if row is None:
        return
    note_sent(session, message.id, now, running)
    if outcome.trouble is Trouble.USED_UP:
        _go_elsewhere(session, row, message, now, running)
    if outcome.moved_to and address_row(session, message.channel, outcome.moved_to) is None:
        row.address = outcome.moved_to
    if outcome.result is SendResult.SENT:
        row.unreachable_since = None


def _gone(
    session: Session,
    address: AddressRow | None,
    message: Claimed,
    outcome: SendOutcome,
    now: datetime,
    running: Collection[str],
) -> None:
    if address is None:
        return
    first = address.unreachable_since is None
    address.unreachable_since = address.unreachable_since or now
    session.flush()
    if outcome.trouble is Trouble.OPTED_OUT:
        opted_out(session, address.person_id, now, running)
        return
    person_row = session.get_one(PersonRow, address.person_id)
    records = CrewRecords(session, person_row.crew_id)
    person = records.person(person_row.id)
    onward = next_address(records, person.id, running)
    if onward is not None:
        _send_on(session, records, message, person, onward, now)
    if first:
        _tell_owner(session, records, message, outcome, person, onward, now, running)


def _go_elsewhere(
    session: Session,
    address: AddressRow,
    message: Claimed,
    now: datetime,
    running: Collection[str],
) -> None:
    records = CrewRecords(session, session.get_one(PersonRow, address.person_id).crew_id)
    person = records.person(address.person_id)
    onward = next_address(records, person.id, running, but_of=message.channel)
    if onward is not None and onward.channel in running:
        _send_on(session, records, message, person, onward, now)


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
    letter = Letter(to.address, row.text, message.letter.buttons)
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
    if owner is None or to is None or outcome.trouble is None:
        return
    why = TROUBLES[outcome.trouble].words
    name = "you" if owner.id == person.id else person.name
    text = unreached(name, message.channel, why, None if onward is None else onward.channel)
    key = f"unreached:{person.id}:{message.channel}:{now.isoformat()}"
    plan(session, key, Purpose.NEWS, to, Letter(to.address, text), now)
