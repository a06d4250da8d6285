"""Keeping what carriers report of messages out."""

from collections.abc import Collection, Sequence

from sqlalchemy import Select, select
from sqlalchemy.orm import Session

from bot.channels.carrier_tables import DeliveryRow
from bot.channels.reports import Delivery, DeliveryReport, moved_on
from scheduling.records.upsert import insert_or_ignore


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
