"""Invites: a code that the owner reads out and the partner types, once."""

import secrets
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from enum import StrEnum

from sqlalchemy import ColumnElement, Select, select, update
from sqlalchemy.orm import Session

from scheduling.records.addresses import AddressesOfCrew, crews_together, find_people
from scheduling.records.crews import hold_crew
from scheduling.records.people import PeopleOfCrew, Person
from scheduling.records.tables import InviteRow, Role

ALPHABET = "23456789ABCDEFGHJKMNPQRSTUVWXYZ"
"""Letters and digits that are not taken for each other when read out or written by hand."""

LENGTH = 6

GOOD_FOR = timedelta(days=14)


class InviteProblem(StrEnum):
    """Why a code lets nobody in."""

    UNKNOWN = "unknown"
    USED = "used"
    EXPIRED = "expired"
    WITHDRAWN = "withdrawn"
    TOO_OFTEN = "too often"
    """Too many were wrong just now, so it was not looked up."""
    TOLD = "told"
    """The same, and its sender was told so before."""


class InviteError(Exception):
    """A code lets nobody in; ``problem`` says why."""

    def __init__(self, problem: InviteProblem) -> None:
        super().__init__(f"the invite is {problem}")
        self.problem = problem


@dataclass(frozen=True)
class Invite:
    """A code, and the instant after which it lets nobody in; ``own`` for a way of its maker's."""

    code: str
    expires_at: datetime
    own: bool = False


class InvitesOfCrew(AddressesOfCrew):
    """The invites of one crew."""

    def make_invite(self, person_id: int, now: datetime, *, own: bool = False) -> Invite:
        """Make a code that lets one more person into this crew within 14 days.

        One that is ``own`` gives the person who asks for it one more address instead.

        Raises:
            LookupError: who asks for it is not of this crew.
        """
        self._person_row(person_id)
        code = "".join(secrets.choice(ALPHABET) for _ in range(LENGTH))
        self._session.add(
            InviteRow(code=code, crew_id=self._crew_id, made_by=person_id, made_at=now, own=own)
        )
        self._session.flush()
        return Invite(code, now + GOOD_FOR, own)

    def open_invites(self, person_id: int | None, now: datetime) -> tuple[Invite, ...]:
        """Give the codes that still let somebody in, the oldest first.

        Args:
            person_id: whose own codes are given too; None for every code of the crew.
            now: aware instant.
        """
        ours = select(InviteRow).where(InviteRow.crew_id == self._crew_id, _is_open(now))
        rows = self._session.scalars(ours.order_by(InviteRow.made_at, InviteRow.code))
        return tuple(
            Invite(row.code, row.made_at + GOOD_FOR, row.own)
            for row in rows
            if person_id in (None, row.made_by)
        )

    def withdraw_invite(self, code: str, now: datetime) -> bool:
        """Let a code of this crew let nobody in any more; False if it would not have."""
        this = update(InviteRow).where(InviteRow.code == code.strip().upper(), _is_open(now))
        ours = this.where(InviteRow.crew_id == self._crew_id).values(withdrawn_at=now)
        return self._session.execute(ours.returning(InviteRow.code)).first() is not None

    def newcomer(self, name: str, *, zone: str, now: datetime) -> Person:
        """Take in somebody who was invited.

        A keeper known only from imported entries is taken for the person of that name; a name
        that somebody reachable bears, or somebody who left, gets a number ("Ann 2").
        """
        known = self.person_named(name)
        if known is not None and self._is_unreached_keeper(known):
            return known
        return self.add_person(self.free_name(name), zone=zone, now=now)

    def _is_unreached_keeper(self, known: Person) -> bool:
        unreached = known.left_at is None and not self.addresses(known.id)
        return unreached and known.role is Role.KEEPER

    def free_name(self, name: str) -> str:
        """Give a name, with a number if somebody of this crew bears it."""
        free, number = name, 1
        while self.person_named(free) is not None:
            number += 1
            free = f"{name} {number}"
        return free


def redeem(
    session: Session,
    code: str,
    *,
    name: str,
    zone: str,
    channel: str,
    address: str,
    now: datetime,
) -> Person:
    """Let whoever types a code at an address into the code's crew, and use the code up.

    A code that somebody made for themselves gives them the address, in each of their crews.
    Who is in another crew is in both from then on, with the same clock and hours. Who is in the
    crew already stays as they are, and the code stays good.

    Raises:
        InviteError: the code is unknown, used or expired; the transaction must be given up.
    """
    invite = _good_invite(session, code, now)
    hold_crew(session, invite.crew_id)
    before = find_people(session, channel, address)
    for present in before:
        if present.crew_id == invite.crew_id:
            return present
    if invite.own:
        return _one_more_way(session, invite, channel, address, now)
    records = InvitesOfCrew(session, invite.crew_id)
    person = records.newcomer(name, zone=zone, now=now)
    records.add_address(person.id, channel, address)
    _use_up(session, invite, person, now)
    return as_elsewhere(records, person, before)


def _one_more_way(
    session: Session, invite: InviteRow, channel: str, address: str, now: datetime
) -> Person:
    taken = {person.crew_id for person in find_people(session, channel, address)}
    maker = InvitesOfCrew(session, invite.crew_id).person(invite.made_by)
    for each in crews_together(session, maker.id):
        if each.crew_id not in taken:
            InvitesOfCrew(session, each.crew_id).add_address(each.id, channel, address)
    _use_up(session, invite, maker, now)
    return maker


def as_elsewhere(records: PeopleOfCrew, person: Person, elsewhere: Sequence[Person]) -> Person:
    """Give somebody the clock, hours and ways that they have in another crew, if in any."""
    if not elsewhere:
        return person
    known = elsewhere[0]
    return records.update_person(
        person.id,
        zone=known.zone,
        morning=known.morning,
        morning_asked_at=known.morning_asked_at,
        quiet_from=known.quiet_from,
        quiet_until=known.quiet_until,
        quiet_asked_at=known.quiet_asked_at,
        cautioned_on=known.cautioned_on,
        first_channel=known.first_channel,
        fallback_minutes=known.fallback_minutes,
    )


def crew_of_code(session: Session, code: str) -> int | None:
    """Tell which crew a code is or was good for; None for one that never was."""
    invite = session.get(InviteRow, code.strip().upper())
    return None if invite is None else invite.crew_id


def is_own_code(session: Session, code: str) -> bool:
    """Tell whether a code is, or was, for one more channel of who asked for it."""
    invite = session.get(InviteRow, code.strip().upper())
    return invite is not None and invite.own


def crews_with_open_invites(now: datetime) -> Select[int]:
    """Select the numbers of the crews that wait for somebody with a code."""
    return select(InviteRow.crew_id).where(_is_open(now))


def _is_open(now: datetime) -> ColumnElement[bool]:
    unused = InviteRow.used_at.is_(None) & InviteRow.withdrawn_at.is_(None)
    return unused & (InviteRow.made_at > now - GOOD_FOR)


def _good_invite(session: Session, code: str, now: datetime) -> InviteRow:
    invite = session.get(InviteRow, code.strip().upper())
    if invite is None:
        raise InviteError(InviteProblem.UNKNOWN)
    if invite.used_at is not None:
        raise InviteError(InviteProblem.USED)
    if invite.withdrawn_at is not None:
        raise InviteError(InviteProblem.WITHDRAWN)
    if now >= invite.made_at + GOOD_FOR:
        raise InviteError(InviteProblem.EXPIRED)
    return invite


def _use_up(session: Session, invite: InviteRow, person: Person, now: datetime) -> None:
    # Asked of the database anew, so that of two who type the code at one time one is refused.
    unused = update(InviteRow).where(InviteRow.code == invite.code, _is_open(now))
    used = session.execute(
        unused.values(used_by=person.id, used_at=now).returning(InviteRow.code)
    ).first()
    if used is None:
        raise InviteError(InviteProblem.USED)
