"""Once a year, before anybody works by our messages: what can hurt them."""

from datetime import datetime

from dateutil.relativedelta import relativedelta
from sqlalchemy.orm import Session

from bot.channels.channel import OutgoingMessage
from bot.delivery.outbox import Recipient, plan
from bot.delivery.rules import Purpose
from bot.wording.cautions import cautions
from scheduling.records.addresses import crews_together
from scheduling.records.crew_records import CrewRecords
from scheduling.records.people import Person
from scheduling.wall_time import local_day

_EVERY = relativedelta(years=1)


def caution_if_due(
    session: Session,
    person: Person,
    to: Recipient,
    now: datetime,
    purpose: Purpose = Purpose.CAUTION,
) -> None:
    """Queue the caution if the person never had it, or not for a year."""
    today = local_day(now, person.zone)
    if person.cautioned_on is not None and today < person.cautioned_on + _EVERY:
        return
    key = f"caution:{person.id}:{today}"
    plan(session, key, purpose, to, OutgoingMessage(to.address, cautions()), now)
    for each in crews_together(session, person.id):
        CrewRecords(session, each.crew_id).update_person(each.id, cautioned_on=today)
