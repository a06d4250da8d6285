"""Whom a carrier refuses: marked as gone, and told to the owner or to who had asked the number."""

from collections.abc import Callable, Collection, Iterator
from datetime import datetime

from sqlalchemy import Select, select
from sqlalchemy.orm import Session

from bot.channels.channel import OutgoingMessage
from bot.channels.send_error import SEND_ERRORS, SendError
from bot.delivery.outbox import Recipient, next_address, of_their_crew, plan, withdraw
from bot.delivery.rules import Purpose
from bot.program_log import log_of
from bot.wording.alerts import left_out, stopped_by_carrier, unreached
from bot.wording.consent_texts import did_not_reach
from scheduling.places import Place
from scheduling.records.addresses import address_rows, crews_together
from scheduling.records.crew_records import CrewRecords
from scheduling.records.numbers import Asked, Outcome, end_askings, refuse
from scheduling.records.people import Person, people_with_yards, person_of
from scheduling.records.tables import AddressRow, CrewRow, PersonRow, Role
from scheduling.wall_time import local_day

log = log_of(__name__)


def owners_of(
    session: Session, crews: Select[int], running: Collection[str], *but_of: Collection[str]
) -> Iterator[tuple[Person, Recipient]]:
    """Give the owners of crews who did not stop their messages, and where they are told.

    Args:
        session: the transaction.
        crews: numbers of the crews.
        running: names of the channels that run, whose addresses go before others.
        but_of: channels that are passed over; with several such, one after the other is tried.
    """
    owners = people_with_yards().where(PersonRow.crew_id.in_(crews))
    owners = owners.where(PersonRow.role == Role.OWNER, PersonRow.stopped.is_(False))
    for row in session.execute(owners.order_by(PersonRow.id)).all():
        person = person_of(row)
        records = CrewRecords(session, person.crew_id)
        found = (next_address(records, person.id, running, passed) for passed in but_of)
        to = next((each for each in found if each is not None), None)
        if to is not None:
            yield person, to


def tell_owner(
    session: Session,
    about: PersonRow,
    key: str,
    text: str,
    now: datetime,
    running: Collection[str] = (),
) -> None:
    """Tell the owners of somebody's crew, but for those who stopped their messages.

    Args:
        session: the transaction.
        about: whom the text is about.
        key: what the text is for; who it is about and the instant are added.
        text: what the owners are told.
        now: aware instant.
        running: names of the channels that run, whose addresses go before others.
    """
    tell_each_owner(session, about, key, lambda _owner: text, now, running)


def tell_each_owner(
    session: Session,
    about: PersonRow,
    key: str,
    text: Callable[[Person], str],
    now: datetime,
    running: Collection[str] = (),
) -> None:
    """Tell the owners of somebody's crew, each in the words that ``text`` gives for them."""
    crew = select(PersonRow.crew_id).where(PersonRow.id == about.id)
    for owner, to in owners_of(session, crew, running, ()):
        outgoing = OutgoingMessage(to.address, of_their_crew(session, owner.id, text(owner)))
        whole_key = f"{key}:{about.id}:{owner.id}:{now.isoformat()}"
        plan(session, whole_key, Purpose.NEWS, to, outgoing, now)


def tell_left_out(
    session: Session,
    crew_id: int,
    places: Collection[Place],
    now: datetime,
    running: Collection[str] = (),
) -> None:
    """Tell the owners of a crew what its calendar had to leave out, once a day.

    Args:
        session: the transaction.
        crew_id: number of the crew.
        places: the units and batches of which a rule failed; none is no news.
        now: aware instant.
        running: names of the channels that run, whose addresses go before others.
    """
    if not places:
        return
    crew = select(CrewRow.id).where(CrewRow.id == crew_id)
    for person, to in owners_of(session, crew, running, ()):
        text = of_their_crew(session, person.id, left_out([str(place) for place in places]))
        key = f"left_out:{person.id}:{local_day(now, person.zone)}"
        if plan(session, key, Purpose.NEWS, to, OutgoingMessage(to.address, text), now):
            log.error("units are left out of a calendar", number=crew_id, most=len(places))


def tell_owner_of_gone_address(
    session: Session,
    whose: PersonRow,
    channel: str,
    error: SendError | None,
    now: datetime,
    running: Collection[str],
) -> None:
    """Tell the owners that a channel does not reach somebody, why, and over which they are now."""
    if error is None:
        return
    onward = next_address(CrewRecords(session, whose.crew_id), whose.id, running)
    instead, why = None if onward is None else onward.channel, SEND_ERRORS[error].words

    def text(owner: Person) -> str:
        return unreached("you" if owner.id == whose.id else whose.name, channel, why, instead)

    tell_each_owner(session, whose, f"unreached:{channel}", text, now, running)


def tell_who_asked(session: Session, asked: Asked, text: str, now: datetime) -> None:
    """Tell who asked a number what came of it."""
    records = CrewRecords(session, asked.crew_id)
    to = next_address(records, asked.made_by, ())
    if to is not None and not records.person(asked.made_by).stopped:
        key = f"asked:{asked.id}"
        outgoing = OutgoingMessage(to.address, of_their_crew(session, asked.made_by, text))
        plan(session, key, Purpose.NEWS, to, outgoing, now)


def not_asked(
    session: Session, channel: str, number: str, send_error: SendError | None, now: datetime
) -> None:
    """The question met a number that takes no messages, so nothing is open there any more."""
    if send_error is None:
        return
    if send_error is SendError.OPTED_OUT:
        refuse(session, channel, number, now)
    for asked in end_askings(session, channel, number, Outcome.FAILED, now):
        text = did_not_reach(asked.name, number, SEND_ERRORS[send_error].words)
        tell_who_asked(session, asked, text, now)


def opted_out(session: Session, person_id: int, now: datetime, running: Collection[str]) -> None:
    """Do as if a person had texted STOP: they told their carrier so. The owner hears of it.

    Of somebody in several crews each owner does.
    """
    for each in crews_together(session, person_id):
        row = session.get_one(PersonRow, each.id)
        withdraw(session, row.id, now, all_of_it=True)
        if not row.stopped:
            row.stopped = True
            session.flush()
            tell_owner(session, row, "stopped", stopped_by_carrier(row.name), now, running)


def gone_now(session: Session, channel: str, address: str, now: datetime) -> list[AddressRow]:
    """Mark an address as gone; gives its rows that were not marked before."""
    rows = [row for row in address_rows(session, channel, address) if row.unreachable_since is None]
    for row in rows:
        row.unreachable_since = now
    session.flush()
    return rows
