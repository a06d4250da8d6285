"""Leaving a crew: whoever is out of it has no way to it, and nothing that could lead back in."""

from datetime import datetime

from sqlalchemy import delete, select
from sqlalchemy.orm import Session

from scheduling.records.numbers import Asked, end_askings_by, refuse
from scheduling.records.people import Person
from scheduling.records.tables import AddressRow, InviteRow, PersonRow


def let_out(session: Session, person: Person, now: datetime) -> tuple[Asked, ...]:
    """Take a person out of their crew; what they noted stays under their name.

    Their addresses go, the codes they made and nobody has used, and what they had numbers asked.
    A number whose holder wanted silence keeps it.

    Returns:
        What numbers were asked and need not answer any more.
    """
    row = session.get_one(PersonRow, person.id)
    if row.stopped:
        ways = select(AddressRow).where(AddressRow.person_id == row.id)
        for way in session.scalars(ways).all():
            refuse(session, way.channel, way.address, now)
    session.execute(delete(AddressRow).where(AddressRow.person_id == row.id))
    ended = take_back_codes(session, person, now, own=True)
    row.left_at, row.next_morning_at, row.ready_for, row.yard_id = now, None, None, None
    session.flush()
    return ended


def take_back_codes(
    session: Session, person: Person, now: datetime, *, own: bool
) -> tuple[Asked, ...]:
    """Let the codes a person made lead nobody into the crew; gives the questions that ended so.

    Args:
        session: the transaction.
        person: who made them.
        now: aware instant.
        own: those for further ways of the person themselves as well.
    """
    unused = delete(InviteRow).where(InviteRow.made_by == person.id, InviteRow.used_at.is_(None))
    session.execute(unused if own else unused.where(InviteRow.own.is_(False)))
    return end_askings_by(session, person.id, now, own=own)
