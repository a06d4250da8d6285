"""Telling the owners that a month's texts are nearly used up, and that they are."""

from collections.abc import Collection, Iterator
from datetime import datetime

from sqlalchemy import select
from sqlalchemy.orm import Session

from bot.channels.channel import OutgoingMessage
from bot.channels.known_channels import charged_channels
from bot.post.outbox import plan
from bot.post.recipients import Recipient, next_address
from bot.post.rules import Purpose
from bot.post.sms_budget import SmsBudget, month_of, next_month, used_in_month
from bot.program_log import log_of
from bot.wording.alerts import texts_nearly_used_up, texts_used_up
from scheduling.records.crew_records import CrewRecords
from scheduling.records.people import Person, people_with_yards, person_of
from scheduling.records.tables import AddressRow, PersonRow, Role

log = log_of(__name__)


def tell_of_sms_budget(
    session: Session, now: datetime, sms_budget: SmsBudget, running: Collection[str]
) -> None:
    """Tell the owners of crews that are texted, once a month near the budget's end and once at it.

    They are told over another channel where they have one; at its end over no text.
    """
    used = used_in_month(session, now)
    if not sms_budget.is_near(used):
        return
    reached, until = used >= sms_budget.segments, next_month(now).date()
    for person, to in _owners(session, running, by_text=not reached):
        told = texts_used_up if reached else texts_nearly_used_up
        text = told(used, sms_budget.segments, until)
        name = "reached" if reached else "near"
        key = f"ceiling:{month_of(now):%Y-%m}:{sms_budget.segments}:{name}:{person.id}"
        if plan(session, key, Purpose.ALERT, to, OutgoingMessage(to.address, text), now):
            log.warning(
                "texts of this month near their ceiling", used=used, most=sms_budget.segments
            )


def _owners(
    session: Session, running: Collection[str], by_text: bool
) -> Iterator[tuple[Person, Recipient]]:
    """Find whom to tell, and where: the owners of crews of which somebody has texts."""
    numbers = select(AddressRow.person_id).where(AddressRow.channel.in_(charged_channels()))
    texted = select(PersonRow.crew_id).where(PersonRow.id.in_(numbers))
    owners = people_with_yards().where(PersonRow.crew_id.in_(texted))
    owners = owners.where(PersonRow.role == Role.OWNER, PersonRow.stopped.is_(False))
    for person in [person_of(row) for row in session.execute(owners)]:
        records = CrewRecords(session, person.crew_id)
        to = next_address(records, person.id, running, but_of=charged_channels())
        if to is None and by_text:
            to = next_address(records, person.id, running)
        if to is not None:
            yield person, to
