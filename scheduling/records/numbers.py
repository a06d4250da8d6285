"""Asking a number, once, whether it wants messages; and numbers that wrote unasked.

Nothing but the one asking message goes to a number before it said yes.
"""

from dataclasses import dataclass
from datetime import datetime, timedelta
from enum import StrEnum

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from scheduling.records.addresses import crews_together, find_people
from scheduling.records.crew_records import CrewRecords
from scheduling.records.crews import hold_crew
from scheduling.records.invites import GOOD_FOR, as_elsewhere
from scheduling.records.locks import hold_lock
from scheduling.records.number_tables import NumberAskedRow, StrangerRow
from scheduling.records.people import Person
from scheduling.records.tables import AddressRow

MOST_OPEN = 5
"""Numbers of one crew that may be waiting for their yes at a time; our rule against abuse."""

ANSWER_EVERY = timedelta(days=1)
"""How often a number that is nobody's is answered at most."""

STRANGERS_A_DAY = 50
"""How many numbers that are nobody's are answered within a day, each once."""

_A_DAY = timedelta(days=1)

_CLOCKS_APART = timedelta(minutes=1)


class Outcome(StrEnum):
    """How asking a number ended."""

    YES = "yes"
    NO = "no"
    FAILED = "failed"
    WITHDRAWN = "withdrawn"
    """Whoever asked may not ask any more."""


class Refusal(StrEnum):
    """Why a number is not asked."""

    OURS = "ours"
    """Somebody of this crew has it."""
    ASKED = "asked"
    """This crew asked it before, and nobody is asked twice."""
    CLOSED = "closed"
    """It asked for silence, on its own or as somebody of another crew: which, nobody is told."""
    MANY = "many"
    """Too many wait for their yes."""
    DAY = "day"
    """This crew asked as many within a day as it may."""
    FULL = "full"
    """All crews of this machine together did."""


@dataclass(frozen=True)
class AskLimits:
    """How many numbers may be asked within a day, by each crew and by all of them together."""

    of_crew: int
    of_all: int


@dataclass(frozen=True)
class Asked:
    """A number that was asked and has not answered.

    Attributes:
        id: the number of the asking.
        crew_id: the crew that it would join.
        made_by: the person who asks.
        name: what that person calls them, if anything.
        person_id: whose further number it is; None for somebody who would join.
    """

    id: int
    crew_id: int
    made_by: int
    name: str | None
    person_id: int | None


def refusal(
    session: Session, crew_id: int, channel: str, address: str, now: datetime, limits: AskLimits
) -> Refusal | None:
    """Say why a number may not be asked by a crew; None if it may."""
    holders = find_people(session, channel, address)
    if any(holder.crew_id == crew_id for holder in holders):
        return Refusal.OURS
    if any(holder.stopped for holder in holders):
        return Refusal.CLOSED
    stranger = session.get(StrangerRow, (channel, address))
    if stranger is not None and stranger.refused_at is not None:
        return Refusal.CLOSED
    rows = select(NumberAskedRow).where(NumberAskedRow.crew_id == crew_id)
    at = (NumberAskedRow.channel == channel) & (NumberAskedRow.address == address)
    before = session.scalars(rows.where(at)).all()
    if any(row.outcome != Outcome.YES for row in before):
        return Refusal.ASKED
    waiting = select(func.count(NumberAskedRow.id)).where(NumberAskedRow.crew_id == crew_id)
    many = session.scalar(waiting.where(NumberAskedRow.ended_at.is_(None))) or 0
    return (
        Refusal.MANY if many >= MOST_OPEN else _refused_for_the_day(session, crew_id, now, limits)
    )


def _refused_for_the_day(
    session: Session, crew_id: int, now: datetime, limits: AskLimits
) -> Refusal | None:
    # Two crews that ask at one moment must not both be the last that may.
    hold_lock(session, "asking numbers")
    lately = select(func.count(NumberAskedRow.id)).where(NumberAskedRow.made_at > now - _A_DAY)
    if (session.scalar(lately.where(NumberAskedRow.crew_id == crew_id)) or 0) >= limits.of_crew:
        return Refusal.DAY
    return Refusal.FULL if (session.scalar(lately) or 0) >= limits.of_all else None


def ask_number(
    session: Session,
    made_by: Person,
    channel: str,
    address: str,
    now: datetime,
    *,
    name: str | None = None,
    own: bool = False,
) -> Asked:
    """Write down that a number is asked; the caller has seen that it may be, and sends the words.

    Args:
        session: the transaction.
        made_by: who asks.
        channel: the channel's name.
        address: the number in full.
        now: aware instant.
        name: what who asks calls them.
        own: it is a further number of who asks.
    """
    row = NumberAskedRow(
        crew_id=made_by.crew_id,
        made_by=made_by.id,
        channel=channel,
        address=address,
        name=name,
        person_id=made_by.id if own else None,
        made_at=now,
    )
    session.add(row)
    session.flush()
    return _asked(row)


def open_asking(session: Session, channel: str, address: str, now: datetime) -> Asked | None:
    """Find what a number was asked last and may still say yes to."""
    row = _open(session, channel, address, now)
    return None if row is None else _asked(row)


def accept_number(
    session: Session, channel: str, address: str, now: datetime, zone: str, nameless: str
) -> Person | None:
    """Take a number's yes: its holder joins the crew, or it becomes a person's number.

    A person has one number on a channel, so a new one takes the place of the old, in each of
    their crews. Who joins one more crew has the clock and hours there that they have elsewhere.

    Returns:
        Who has the number now; None if it was not asked, or not lately.
    """
    row = _open(session, channel, address, now)
    if row is None:
        return None
    hold_crew(session, row.crew_id)
    records = CrewRecords(session, row.crew_id)
    before = find_people(session, channel, address)
    if row.person_id is None:
        person = records.newcomer(row.name or nameless, zone=zone, now=now)
        records.add_address(person.id, channel, address)
        person = as_elsewhere(records, person, before)
    else:
        person = records.person(row.person_id)
        _change_number(session, person, channel, address)
    row.ended_at, row.outcome = now, Outcome.YES
    session.flush()
    return person


def end_askings(
    session: Session, channel: str, address: str, outcome: Outcome, now: datetime
) -> tuple[Asked, ...]:
    """End whatever a number was asked and has not answered."""
    at = (NumberAskedRow.channel == channel) & (NumberAskedRow.address == address)
    rows = session.scalars(
        select(NumberAskedRow).where(at, NumberAskedRow.ended_at.is_(None))
    ).all()
    for row in rows:
        row.ended_at, row.outcome = now, outcome
    session.flush()
    return tuple(_asked(row) for row in rows)


def end_askings_by(
    session: Session, person_id: int, now: datetime, *, own: bool
) -> tuple[Asked, ...]:
    """End what a person had numbers asked; with ``own`` also of further numbers of theirs."""
    open_ = NumberAskedRow.ended_at.is_(None) & (NumberAskedRow.made_by == person_id)
    rows = session.scalars(
        select(NumberAskedRow).where(open_ if own else open_ & NumberAskedRow.person_id.is_(None))
    ).all()
    for row in rows:
        row.ended_at, row.outcome = now, Outcome.WITHDRAWN
    session.flush()
    return tuple(_asked(row) for row in rows)


def refuse(session: Session, channel: str, address: str, now: datetime) -> bool:
    """Keep that a number wants silence; False if it had said so before."""
    row = _stranger(session, channel, address)
    first = row.refused_at is None
    row.refused_at = row.refused_at or now
    session.flush()
    return first


def welcome_again(session: Session, channel: str, address: str) -> None:
    """Forget a number's wish for silence: it wrote that it wants to hear from us."""
    row = session.get(StrangerRow, (channel, address))
    if row is not None:
        row.refused_at = None
        session.flush()


def may_answer(session: Session, channel: str, address: str, now: datetime) -> bool:
    """Tell whether a number that is nobody's may be answered now, and count that as done.

    Not within a day of the last answer, not while it wants silence, and not when so many others
    were answered within the day.
    """
    row = _stranger(session, channel, address)
    last = row.answered_at
    just = last is not None and now - ANSWER_EVERY < last <= now + _CLOCKS_APART
    if just or row.refused_at is not None:
        return False
    lately = (StrangerRow.answered_at > now - ANSWER_EVERY) & (StrangerRow.answered_at <= now)
    if (session.scalar(select(func.count()).where(lately)) or 0) >= STRANGERS_A_DAY:
        return False
    row.answered_at = now
    session.flush()
    return True


def _open(session: Session, channel: str, address: str, now: datetime) -> NumberAskedRow | None:
    at = (NumberAskedRow.channel == channel) & (NumberAskedRow.address == address)
    good = NumberAskedRow.ended_at.is_(None) & (NumberAskedRow.made_at > now - GOOD_FOR)
    rows = select(NumberAskedRow).where(at, good).order_by(NumberAskedRow.id.desc())
    return session.scalars(rows.limit(1)).first()


def _stranger(session: Session, channel: str, address: str) -> StrangerRow:
    row = session.get(StrangerRow, (channel, address))
    if row is None:
        row = StrangerRow(channel=channel, address=address)
        session.add(row)
        session.flush()
    return row


def _change_number(session: Session, person: Person, channel: str, address: str) -> None:
    for each in crews_together(session, person.id):
        mine = select(AddressRow).where(AddressRow.person_id == each.id)
        old = session.scalars(mine.where(AddressRow.channel == channel)).all()
        if each.id != person.id and not old:
            continue
        for row in old:
            session.delete(row)
        session.flush()
        CrewRecords(session, each.crew_id).add_address(each.id, channel, address)


def _asked(row: NumberAskedRow) -> Asked:
    return Asked(row.id, row.crew_id, row.made_by, row.name, row.person_id)
