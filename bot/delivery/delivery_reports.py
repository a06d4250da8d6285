"""What carriers report later, and what it means for the message, the number and the person."""

from collections.abc import Collection, Sequence
from datetime import datetime, timedelta

from sqlalchemy import Select, literal, select
from sqlalchemy.orm import Session

from bot.channels.reports import Delivery, DeliveryReport, moved_on
from bot.channels.send_error import SEND_ERRORS, SendError
from bot.channels.sms.segments import segments
from bot.channels.traits import Reports, traits_of
from bot.delivery.message_tables import DeliveryRow, OutboxRow
from bot.delivery.notices_to_owners import (
    gone_now,
    not_asked,
    opted_out,
    tell_owner_of_gone_address,
)
from bot.delivery.rules import OutboxState, SendQueue
from scheduling.records.tables import PersonRow
from scheduling.records.upsert import insert_or_ignore

_ONE_SEND = 10
"""Segments that a carrier which reports by our key takes at once; what is longer goes in parts."""


def apply_report(session: Session, report: DeliveryReport, running: Collection[str] = ()) -> None:
    """Move the message of a report on, only ever forward, and do what its failing asks for.

    A failed one goes to the person's next channel; a number that fails for good takes no more
    messages, and the owner is told; whom the carrier calls opted out is stopped.

    Args:
        session: the transaction; the report is written down in it already.
        report: what the carrier said.
        running: names of the channels that run, whose addresses go before others.
    """
    row = _message(session, report)
    if row is None or row.carrier_id is None:
        return
    _move(session, row, row.carrier_id, report.error, report.at, running)


def note_sent(session: Session, row: OutboxRow, now: datetime, running: Collection[str]) -> None:
    """Heed what the carrier reported of a message before its send was answered.

    From now on the message's time to arrive runs, if its person set one.

    Args:
        session: the transaction.
        row: the message.
        now: aware instant.
        running: names of the channels that run.
    """
    reports = traits_of(row.channel).reports
    if row.state == OutboxState.SENT and reports is not Reports.DELIVERY:
        # A chat's server has the message for good, and a mail server tells only of bounces.
        row.fallback_at = None
    elif row.state in (OutboxState.SENT, OutboxState.PLANNED) and row.fallback_at is None:
        row.fallback_at = _runs_out(session, row, now)
    if reports is Reports.NOTHING:
        return
    if _in_doubt(row):
        told = _told_by_key(session, row)
        if told is not None:
            carrier_id = _settled(session, row, told.carrier_id, now)
            send_error = None if told.error is None else SendError(told.error)
            _move(session, row, carrier_id, send_error, now, running)
    elif row.state == OutboxState.SENT and row.carrier_id is not None:
        send_error = _known_error(session, row.channel, row.carrier_id)
        _move(session, row, row.carrier_id, send_error, now, running)


def _runs_out(session: Session, row: OutboxRow, now: datetime) -> datetime | None:
    if row.person_id is None or row.queue != SendQueue.REMINDERS:
        return None
    person = session.get_one(PersonRow, row.person_id)
    if person.fallback_minutes is None:
        return None
    return now + timedelta(minutes=person.fallback_minutes)


def _message(session: Session, report: DeliveryReport) -> OutboxRow | None:
    on_channel = select(OutboxRow).where(OutboxRow.channel == report.channel).with_for_update()
    row = session.scalars(on_channel.where(OutboxRow.carrier_id == report.carrier_id)).first()
    if row is not None:
        return row
    # A long text has an id for each of its parts.
    parts = literal(" ") + OutboxRow.carrier_id + literal(" ")
    long = OutboxRow.carrier_id.contains(" ")
    part = parts.contains(f" {report.carrier_id} ", autoescape=True)
    row = session.scalars(on_channel.where(long, part)).first()
    return row or _unanswered(session, report)


def _unanswered(session: Session, report: DeliveryReport) -> OutboxRow | None:
    """Find the message of a send that was not answered, by our own key, and name it at last.

    One that waits to be sent again is not: its carrier has it.
    """
    key, slash, part = report.key.rpartition("/")
    if not slash:
        return None
    mine = select(OutboxRow).where(OutboxRow.channel == report.channel, OutboxRow.key == key)
    row = session.scalars(mine.with_for_update()).first()
    if row is None or not _in_doubt(row) or part != str(row.parts_sent):
        return None
    _settled(session, row, report.carrier_id, report.at)
    row.fallback_at = row.fallback_at or _runs_out(session, row, report.at)
    return row


def _in_doubt(row: OutboxRow) -> bool:
    """Tell whether nobody knows if a message arrived, whether or not it is to be sent again."""
    if row.state == OutboxState.UNKNOWN:
        return True
    waits = row.state == OutboxState.PLANNED and row.doubts > 0
    return waits and segments(row.text) <= _ONE_SEND


def _settled(session: Session, row: OutboxRow, carrier_id: str, now: datetime) -> str:
    """Write down that the carrier has a message, under the carrier's name for it."""
    row.carrier_id = row.carrier_id or carrier_id
    if row.state == OutboxState.PLANNED:
        # The database lets nothing planned be sent that was not claimed.
        row.state = OutboxState.CLAIMED
        session.flush()
        row.state, row.ended_at = OutboxState.SENT, now
    return row.carrier_id


def _told_by_key(session: Session, row: OutboxRow) -> DeliveryRow | None:
    """Find what the carrier told of a send by our key, before we knew how the send ended."""
    mine = select(DeliveryRow).where(DeliveryRow.channel == row.channel)
    own = mine.where(DeliveryRow.key == f"{row.key}/{row.parts_sent}")
    return session.scalars(own.order_by(DeliveryRow.id.desc())).first()


def _known_error(session: Session, channel: str, carrier_id: str) -> SendError | None:
    which = DeliveryRow.carrier_id.in_(carrier_id.split(" "))
    told = select(DeliveryRow.error).where(DeliveryRow.channel == channel, which)
    found = session.scalar(told.where(DeliveryRow.error.is_not(None)).limit(1))
    return None if found is None else SendError(found)


def _move(
    session: Session,
    row: OutboxRow,
    carrier_id: str,
    send_error: SendError | None,
    now: datetime,
    running: Collection[str],
) -> None:
    before = Delivery(row.delivery or Delivery.HANDED_OVER)
    after = moved_on(before, delivery_of(session, row.channel, carrier_id.split(" ")))
    row.delivery = after
    if after is before:
        return
    if after is Delivery.DELIVERED:
        row.fallback_at = None
    elif row.person_id is None:
        not_asked(session, row.channel, row.address, send_error, now)
    else:
        _failed(session, row, session.get_one(PersonRow, row.person_id), send_error, now, running)


def _failed(
    session: Session,
    row: OutboxRow,
    person: PersonRow,
    send_error: SendError | None,
    now: datetime,
    running: Collection[str],
) -> None:
    if send_error is SendError.OPTED_OUT:
        opted_out(session, person.id, now, running)
        return
    # The fallback tick sends it on, worded for the channel it goes over.
    row.fallback_at = now
    if send_error is None or not SEND_ERRORS[send_error].address_gone:
        return
    for address in gone_now(session, row.channel, row.address, now):
        holder = session.get_one(PersonRow, address.person_id)
        tell_owner_of_gone_address(session, holder, row.channel, send_error, now, running)


def note_report(session: Session, report: DeliveryReport) -> bool:
    """Write a report down; False if the message was as far already, so that nothing changed."""
    first = insert_or_ignore(
        session,
        DeliveryRow,
        channel=report.channel,
        carrier_id=report.carrier_id,
        key=report.key,
        delivery=report.delivery,
        error=report.error,
        reported_at=report.at,
    )
    return first is not None or _moved(session, report)


def _moved(session: Session, report: DeliveryReport) -> bool:
    row = session.scalars(_rows(report.channel, [report.carrier_id]).with_for_update()).one()
    further = moved_on(Delivery(row.delivery), report.delivery)
    if further == row.delivery:
        return False
    row.delivery, row.error, row.reported_at = further, report.error, report.at
    return True


def delivery_of(session: Session, channel: str, carrier_ids: Sequence[str]) -> Delivery:
    """Say how far a message got that the carrier has under these ids, one for each part."""
    rows = session.scalars(_rows(channel, carrier_ids)).all()
    known = [Delivery(row.delivery) for row in rows]
    return of_parts([*known, *[Delivery.HANDED_OVER] * (len(carrier_ids) - len(known))])


def of_parts(parts: Collection[Delivery]) -> Delivery:
    """Say how far a message got from its parts: with one lost it cannot be read."""
    if Delivery.FAILED in parts:
        return Delivery.FAILED
    return Delivery.HANDED_OVER if Delivery.HANDED_OVER in parts else Delivery.DELIVERED


def _rows(channel: str, carrier_ids: Sequence[str]) -> Select[DeliveryRow]:
    return select(DeliveryRow).where(
        DeliveryRow.channel == channel, DeliveryRow.carrier_id.in_(carrier_ids)
    )
