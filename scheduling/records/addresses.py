"""Where a person is reached: one chat, one number, one terminal at a time.

Who belongs to several crews is a person in each of them, with one address.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import ColumnElement, Select, bindparam, delete, or_, select, update
from sqlalchemy.orm import Session, aliased

from scheduling.records.engine import connection_of
from scheduling.records.people import PeopleOfCrew, Person, people_with_yards, person_of
from scheduling.records.tables import AddressRow, CrewRow, PersonRow, YardRow, table_of


@dataclass(frozen=True)
class Address:
    """A channel's name, and where the person is on it in the channel's own form."""

    channel: str
    address: str


class AddressesOfCrew(PeopleOfCrew):
    """The addresses of one crew's people."""

    def addresses(self, person_id: int, *, reachable: bool = False) -> tuple[Address, ...]:
        """Give a person's addresses, in the order they were added.

        With ``reachable`` only those that the carrier has not refused.

        Raises:
            LookupError: the person is not of this crew.
        """
        self._person_row(person_id)
        rows = select(AddressRow).where(AddressRow.person_id == person_id).order_by(AddressRow.id)
        if reachable:
            rows = rows.where(AddressRow.unreachable_since.is_(None))
        return tuple(Address(row.channel, row.address) for row in self._session.scalars(rows))

    def add_address(self, person_id: int, channel: str, address: str) -> None:
        """Give a person an address; adding it twice changes nothing.

        Raises:
            LookupError: the person is not of this crew.
            ValueError: the address is somebody else's of this crew.
        """
        self._person_row(person_id)
        holder = self._holder(channel, address)
        if holder is None:
            self._session.add(AddressRow(person_id=person_id, channel=channel, address=address))
            self._session.flush()
        elif holder.person_id != person_id:
            raise ValueError(f"that {channel} address belongs to somebody else")

    def remove_address(self, person_id: int, gone: Address) -> None:
        """Take an address away from a person; one that is not theirs changes nothing.

        Raises:
            LookupError: the person is not of this crew.
        """
        self._person_row(person_id)
        at = (AddressRow.channel == gone.channel) & (AddressRow.address == gone.address)
        self._session.execute(delete(AddressRow).where(AddressRow.person_id == person_id, at))

    def _holder(self, channel: str, address: str) -> AddressRow | None:
        """Find the row of whoever of this crew is at an address."""
        ours = _rows_at(channel, address).join(PersonRow, PersonRow.id == AddressRow.person_id)
        return self._session.scalar(ours.where(PersonRow.crew_id == self._crew_id))


def address_rows(session: Session, channel: str, address: str) -> Sequence[AddressRow]:
    """Find the rows of an address, one for each crew in which somebody is at it."""
    return session.scalars(_rows_at(channel, address).order_by(AddressRow.id)).all()


def _rows_at(channel: str, address: str) -> Select[AddressRow]:
    return select(AddressRow).where(AddressRow.channel == channel, AddressRow.address == address)


AT_ADDRESS = (
    people_with_yards()
    .add_columns(AddressRow.unreachable_since)
    .join(AddressRow, AddressRow.person_id == PersonRow.id)
    .where(AddressRow.channel == bindparam("channel"), AddressRow.address == bindparam("address"))
    .order_by(AddressRow.id)
)
"""People at an address, with when it last was refused; see ``person_of``."""


def find_people(session: Session, channel: str, address: str) -> tuple[Person, ...]:
    """Find who is at an address: one person for each of their crews, that of the first first."""
    at = {"channel": channel, "address": address}
    return tuple(map(person_of, connection_of(session).execute(AT_ADDRESS, at)))


def find_person(session: Session, channel: str, address: str) -> Person | None:
    """Find who is at an address, in the first of their crews."""
    return next(iter(find_people(session, channel, address)), None)


def in_several_crews(session: Session, people: Iterable[int]) -> frozenset[int]:
    """Tell which of these people of all crews share an address with one of another crew."""
    other = aliased(AddressRow)
    same = (other.channel == AddressRow.channel) & (other.address == AddressRow.address)
    shared = select(AddressRow.person_id).join(other, same & (other.id != AddressRow.id))
    return frozenset(session.scalars(shared.where(AddressRow.person_id.in_(list(people)))))


def crews_together(session: Session, person_id: int) -> tuple[Person, ...]:
    """Give the person and whom they are in their other crews, in the order they joined."""
    mine, theirs = aliased(AddressRow), aliased(AddressRow)
    same = (mine.channel == theirs.channel) & (mine.address == theirs.address)
    at_mine = select(theirs.person_id).join(mine, same).where(mine.person_id == person_id)
    both = PersonRow.id.in_(at_mine) | (PersonRow.id == person_id)
    return tuple(
        map(person_of, session.execute(people_with_yards().where(both).order_by(PersonRow.id)))
    )


_TAKES_MESSAGES_AGAIN = (
    update(table_of(AddressRow))
    .where(AddressRow.channel == bindparam("on"), AddressRow.address == bindparam("at"))
    .values(unreachable_since=None)
)


def takes_messages_again(session: Session, channel: str, address: str) -> None:
    """Note that an address takes messages, as it wrote one, whatever its carrier said before."""
    told = {"on": channel, "at": address}
    connection_of(session).execute(_TAKES_MESSAGES_AGAIN, told)


def reached_people(session: Session, people: Iterable[int]) -> frozenset[int]:
    """Tell which of these people of all crews have an address that the carrier has not refused."""
    mine = select(AddressRow.person_id).where(AddressRow.person_id.in_(list(people)))
    return frozenset(session.scalars(mine.where(AddressRow.unreachable_since.is_(None))))


def settle_mornings(session: Session, mornings: Mapping[int, datetime]) -> None:
    """Set when the next morning message of people of all crews is due, by their numbers."""
    if mornings:
        rows = [{"id": person, "next_morning_at": at} for person, at in mornings.items()]
        session.execute(update(PersonRow), rows)


def people_due(session: Session, now: datetime, at_most: int = 1000) -> tuple[Person, ...]:
    """Give people of all crews whose next morning message is due, longest overdue first.

    People who stopped their messages are left out.
    """
    due = people_with_yards().where(_is_due(now))
    due = due.order_by(PersonRow.next_morning_at, PersonRow.id).limit(at_most)
    return tuple(person_of(row) for row in session.execute(due))


def hold_if_still_due(session: Session, person: Person) -> Person | None:
    """Hold the crew of somebody who was due, and give the person as they are by now.

    None if their morning is not due any more, as after another worker has queued it, or while
    somebody else holds the crew: it is then due still.
    """
    crew = select(CrewRow.id).where(CrewRow.id == person.crew_id)
    held = crew.with_for_update(of=CrewRow, key_share=True, skip_locked=True)
    if session.scalar(held) is None:
        return None
    same = (PersonRow.id == person.id) & (PersonRow.next_morning_at == person.next_morning_at)
    due = people_with_yards().where(same, PersonRow.stopped.is_(False))
    found = session.execute(due).first()
    return None if found is None else person_of(found)


_NOT_READY = PersonRow.stopped.is_(False) & or_(
    PersonRow.ready_for.is_(None), PersonRow.ready_for != PersonRow.next_morning_at
)
"""Whose next morning nobody has made ready yet; as the index says it."""


def claim_to_make_ready(
    session: Session, after: datetime, until: datetime, at_most: int
) -> tuple[Person, ...]:
    """Give people whose morning comes between two instants, soonest first, each of them once.

    Nobody is given again until their next morning is another one, or ``make_ready_again``.
    """
    soon = (PersonRow.next_morning_at > after) & (PersonRow.next_morning_at <= until)
    some = select(PersonRow.id).where(soon, _NOT_READY).order_by(PersonRow.next_morning_at)
    free = some.limit(at_most).with_for_update(skip_locked=True)
    people = list(session.scalars(free))
    if not people:
        return ()
    taken = update(PersonRow).where(PersonRow.id.in_(people))
    session.execute(taken.values(ready_for=PersonRow.next_morning_at))
    claimed = people_with_yards().where(PersonRow.id.in_(people))
    found = session.execute(claimed.order_by(PersonRow.next_morning_at, PersonRow.id))
    return tuple(map(person_of, found))


def is_any_to_make_ready(session: Session, after: datetime, until: datetime) -> bool:
    """Tell whether ``claim_to_make_ready`` would give anybody."""
    soon = (PersonRow.next_morning_at > after) & (PersonRow.next_morning_at <= until)
    return session.scalar(select(PersonRow.id).where(soon, _NOT_READY).limit(1)) is not None


def make_ready_again(session: Session, yard_id: int) -> None:
    """Let mornings of a yard's crew be made ready anew, since its weather is other than it was."""
    crew = select(YardRow.crew_id).where(YardRow.id == yard_id).scalar_subquery()
    ready = PersonRow.ready_for == PersonRow.next_morning_at
    session.execute(
        update(PersonRow).where(PersonRow.crew_id == crew, ready).values(ready_for=None)
    )


def _is_due(now: datetime) -> ColumnElement[bool]:
    return (PersonRow.next_morning_at <= now) & PersonRow.stopped.is_(False)
