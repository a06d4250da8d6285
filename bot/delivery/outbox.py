"""The outbox: messages out, planned once for each purpose, sent on, withdrawn, and completed.

A message goes to a recipient: where a person is reached, and whether their crew must be named to
them there. The outbox is a queue in the database, whose triggers refuse every way from state to
state but those of ``MAY_BECOME``; ``claims`` takes messages out of it.
"""

from collections.abc import Collection, Sequence
from dataclasses import asdict, dataclass
from datetime import date, datetime, timedelta
from zlib import crc32

from sqlalchemy import ColumnElement, update
from sqlalchemy.orm import Session

from bot.channels.channel import OutgoingMessage, SendOutcome, SendResult
from bot.delivery.claims import Claimed
from bot.delivery.empty_messages import FORGOTTEN, make_empty
from bot.delivery.message_tables import IS_CLAIMED, IS_PLANNED, OutboxRow
from bot.delivery.rate_limit import hold
from bot.delivery.rules import (
    QUEUES,
    REPEAT_WHEN_UNKNOWN,
    UNASKED,
    OutboxState,
    Purpose,
    SendQueue,
    back_off,
)
from bot.wording.crews_named import apart, from_crew
from scheduling.places import Place, UnitName
from scheduling.records.addresses import crews_together, in_several_crews
from scheduling.records.crew_records import CrewRecords
from scheduling.records.people import Person
from scheduling.records.upsert import insert_or_ignore


@dataclass(frozen=True)
class Recipient:
    """Where a message goes; ``person_id`` is None for somebody who has not joined."""

    channel: str
    address: str
    person_id: int | None = None


def next_address(
    records: CrewRecords, person_id: int, running: Collection[str], but_of: Collection[str] = ()
) -> Recipient | None:
    """Where a person takes messages: on a running channel before any other, then on their first.

    With ``but_of`` on any channel but those.
    """
    first = records.person(person_id).first_channel
    found = sorted(
        [
            each
            for each in records.addresses(person_id, reachable=True)
            if each.channel not in but_of
        ],
        key=lambda each: (each.channel not in running, each.channel != first),
    )
    return Recipient(found[0].channel, found[0].address, person_id) if found else None


def crew_names(session: Session, people: Sequence[Person]) -> list[str]:
    """Name the crews of these people, so that no two are called the same."""
    return apart([CrewRecords(session, person.crew_id).crew().name for person in people])


def crew_said(session: Session, person_id: int) -> str:
    """Name a person's crew if they are in several, so that it must be said; else ""."""
    if not in_several_crews(session, [person_id]):
        return ""
    people = crews_together(session, person_id)
    place = [person.id for person in people].index(person_id)
    return crew_names(session, people)[place]


def of_their_crew(session: Session, person_id: int, text: str) -> str:
    """Name the crew of a text to somebody who is in several; else give the text as it is."""
    crew = crew_said(session, person_id)
    return from_crew(crew, text) if crew else text


@dataclass(frozen=True)
class Topic:
    """What a message out tells of, for whoever quotes it or presses its button.

    Attributes:
        of_message: the id of the message in under which that stands.
        places: what a reply that names no unit is about.
    """

    of_message: str | None = None
    places: tuple[Place, ...] = ()


NO_TOPIC = Topic()


@dataclass(frozen=True)
class Planned:
    """A message that was queued in this transaction, by its row's id."""

    id: int


def plan(
    session: Session,
    key: str,
    purpose: Purpose,
    to: Recipient,
    outgoing: OutgoingMessage,
    now: datetime,
    useful_until: datetime | None = None,
    about: date | None = None,
    quiet_until: datetime | None = None,
    topic: Topic = NO_TOPIC,
) -> Planned | None:
    """Queue a message; None if one with this key was queued before.

    Args:
        session: the transaction.
        key: names the purpose: who, what for, and the local date or the message it answers.
        purpose: what it is for.
        to: where it goes.
        outgoing: what is sent.
        now: aware instant.
        useful_until: from when on it is not sent any more.
        about: the person's local date that a morning tells of.
        quiet_until: until when it waits, for somebody whose quiet hours nobody settled.
        topic: what it tells of.
    """
    queued = insert_or_ignore(
        session,
        OutboxRow,
        key=key,
        purpose=purpose,
        person_id=to.person_id,
        channel=to.channel,
        address=to.address,
        text=outgoing.text,
        buttons=[[[b.label, b.text] for b in row] for row in outgoing.buttons],
        queue=QUEUES[purpose],
        state=OutboxState.PLANNED,
        attempts=0,
        doubts=0,
        parts_sent=0,
        about=about,
        planned_at=now,
        next_try_at=quiet_until or now,
        quiet_until=quiet_until,
        useful_until=useful_until,
        document=None if outgoing.document is None else asdict(outgoing.document),
        carrier_said="",
        of_message=topic.of_message,
        places=places_to_json(topic.places),
        edits=outgoing.edits,
    )
    return None if queued is None else Planned(queued)


def places_to_json(places: Sequence[Place]) -> list[list[str]] | None:
    """Put units and yards as they are stored; batches are left out."""
    kept = [place for place in places if place.batch is None]
    return [[place.yard, str(place.unit or "")] for place in kept] or None


def places_from_json(stored: Sequence[Sequence[str]] | None) -> tuple[Place, ...]:
    """Give stored units and yards back."""
    return tuple(Place(yard, UnitName.parse(unit) if unit else None) for yard, unit in stored or ())


_SENT_ON = ">"
"""Stands in the key of what was sent on, before the channel that it went to."""


def was_sent_on(row: OutboxRow) -> bool:
    """Tell whether a message is one that was sent on; it goes no further.

    Otherwise two channels that both fail would play ball with it.
    """
    return _SENT_ON in row.key and row.key.rpartition(_SENT_ON)[2] == row.channel


def send_on(
    session: Session, row: OutboxRow, to: Recipient, outgoing: OutgoingMessage, now: datetime
) -> None:
    """Queue a message once more, for another address of its person.

    Args:
        session: the transaction.
        row: the message that did not arrive.
        to: where it goes now.
        outgoing: what is sent there.
        now: aware instant.
    """
    key = f"{row.key}{_SENT_ON}{to.channel}"
    plan(session, key, Purpose(row.purpose), to, outgoing, now, row.useful_until, row.about)


def withdraw(session: Session, person_id: int, now: datetime, *, all_of_it: bool = False) -> None:
    """End what waits for a person who wants no message that was not asked for; or all of it.

    Of all of it nothing under way comes a second time either; what was not asked for is looked at
    anew when it is claimed again.
    """
    which = OutboxRow.person_id == person_id
    if all_of_it:
        _end_under_way(session, which, now)
    _end_planned(session, which if all_of_it else which & OutboxRow.purpose.in_(UNASKED), now)


def withdraw_at(session: Session, channel: str, address: str, now: datetime) -> None:
    """End all that waits for an address that wants silence; nothing under way comes once more."""
    which = (OutboxRow.channel == channel) & (OutboxRow.address == address)
    _end_under_way(session, which, now)
    _end_planned(session, which, now)


def _end_under_way(session: Session, which: ColumnElement[bool], now: datetime) -> None:
    """Let what is being sent be of no use from now on, should it come back to the outbox."""
    session.execute(update(OutboxRow).where(which, IS_CLAIMED).values(useful_until=now))


def _end_planned(session: Session, which: ColumnElement[bool], now: datetime) -> None:
    # After the other: it waits for a send that is just ending, and that may have planned its row.
    ended = update(OutboxRow).where(which, IS_PLANNED)
    session.execute(ended.values(state=OutboxState.EXPIRED, ended_at=now))


def question_key(asked: int) -> str:
    """Name the one message that asks a number, by the number of the asking."""
    return f"invite:{asked}"


def withdraw_question(session: Session, asked: int, now: datetime) -> None:
    """End the message that asks a number, if it still waits; one under way comes no second time."""
    which = OutboxRow.key == question_key(asked)
    _end_under_way(session, which, now)
    _end_planned(session, which, now)


def redirect(session: Session, gone: Recipient, to: Recipient) -> None:
    """Let what waits for a person at one address go to another of theirs."""
    at = (OutboxRow.channel == gone.channel) & (OutboxRow.address == gone.address)
    waits = update(OutboxRow).where(OutboxRow.person_id == gone.person_id, at, IS_PLANNED)
    session.execute(waits.values(channel=to.channel, address=to.address))


_ENDED = {
    SendResult.SENT: OutboxState.SENT,
    SendResult.REFUSED: OutboxState.FAILED,
    SendResult.UNREACHABLE: OutboxState.FAILED,
    SendResult.UNKNOWN: OutboxState.UNKNOWN,
}


def complete(
    session: Session, claimed: Claimed, outcome: SendOutcome, now: datetime
) -> OutboxRow | None:
    """Write down how a claimed send ended; gives its row, or None when that no longer matters.

    When the claim ran out and the message was claimed anew, only that it arrived still counts. The
    row may have gone with its whole crew.
    """
    row = session.get(OutboxRow, claimed.id, with_for_update=True)
    if outcome.wait:
        hold(session, claimed.channel, claimed.outgoing.address, now, now + outcome.wait)
    if row is None or not _counts(session, row, claimed, outcome):
        return None
    row.carrier_said, row.error = outcome.said, outcome.error
    row.address = outcome.moved_to or row.address
    if outcome.result is SendResult.SENT and outcome.parts_left:
        row.parts_sent, row.doubts = row.parts_sent + 1, 0
        _plan_anew(row, now)
    elif outcome.result is SendResult.LATER:
        _plan_anew(row, now + (_wait(row) if outcome.wait is None else outcome.wait))
    elif outcome.result is SendResult.UNKNOWN and row.doubts < REPEAT_WHEN_UNKNOWN[claimed.purpose]:
        row.doubts += 1
        _plan_anew(row, now + _wait(row))
    else:
        row.state, row.ended_at, row.document = _ENDED[outcome.result], now, None
        row.carrier_id = outcome.carrier_id
        if row.key.startswith(FORGOTTEN):
            make_empty(row)
    return row


def _counts(session: Session, row: OutboxRow, claimed: Claimed, outcome: SendOutcome) -> bool:
    if row.parts_sent != claimed.outgoing.part:
        return False
    arrived = outcome.result is SendResult.SENT
    if row.state == OutboxState.PLANNED and arrived and row.attempts == claimed.attempt:
        # Its claim ran out and nobody took it since.
        row.state = OutboxState.CLAIMED
        session.flush()
    overtaken = row.attempts != claimed.attempt and not arrived
    return row.state == OutboxState.CLAIMED and not overtaken


def _wait(row: OutboxRow) -> timedelta:
    # Another share for each message and try, and the same in every run.
    spread = crc32(f"{row.key}:{row.attempts}".encode()) / 2**32
    return back_off(SendQueue(row.queue), row.attempts - row.parts_sent, spread)


def _plan_anew(row: OutboxRow, at: datetime) -> None:
    row.state, row.lease_until, row.next_try_at = OutboxState.PLANNED, None, at
