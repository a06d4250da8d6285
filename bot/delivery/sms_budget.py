"""The SMS budget: the segments that the owner pays for in a month, and the alerts of its end."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import UTC, datetime

from sqlalchemy import select
from sqlalchemy.orm import Session

from bot.channels.channel import OutgoingMessage
from bot.channels.sms.segments import segments
from bot.channels.traits import charged_channels, traits_of
from bot.delivery.message_tables import OutboxRow, is_charged
from bot.delivery.notices_to_owners import owners_of
from bot.delivery.outbox import plan
from bot.delivery.rules import Purpose
from bot.program_log import log_of
from bot.wording.alerts import texts_nearly_used_up, texts_used_up
from scheduling.records.tables import AddressRow, PersonRow

log = log_of(__name__)

STILL_SENT = frozenset({Purpose.MORNING, Purpose.CAUTION, Purpose.FIRST_CAUTION, Purpose.FAREWELL})
"""What goes at the end of the budget too: mornings, what can hurt (also whoever had no answer may
be about to open a box), and the one confirmation of a stop, which carriers require."""

NEAR = 0.8
"""The share of the budget from which on its end is near."""


@dataclass(frozen=True)
class SmsBudget:
    """So many segments in a month, in all.

    Months are those of UTC, since one bill is for people of many zones. What is under way
    between two workers may come on top.
    """

    segments: int

    def is_near(self, used: int) -> bool:
        """Tell whether the owner should know by now."""
        return used >= self.segments * NEAR

    def is_reached(self, session: Session, now: datetime) -> bool:
        """Tell whether this month's segments are used up."""
        return used_in_month(session, now) >= self.segments

    def holds_back(self, session: Session, channel: str, purpose: Purpose, now: datetime) -> bool:
        """Tell whether a message may not go any more."""
        if not traits_of(channel).is_charged or purpose in STILL_SENT:
            return False
        return self.is_reached(session, now)


def used_in_month(session: Session, now: datetime) -> int:
    """Count the segments of the texts that went out in the month of an aware instant."""
    begins = month_of(now)
    went = select(OutboxRow.text).where(is_charged(), OutboxRow.ended_at >= begins)
    return sum(map(segments, session.scalars(went)))


def month_of(now: datetime) -> datetime:
    """Give the instant at which the month of an instant begins, by UTC."""
    return now.astimezone(UTC).replace(day=1, hour=0, minute=0, second=0, microsecond=0)


def next_month(now: datetime) -> datetime:
    """Give the instant at which the next month begins, by UTC."""
    begins = month_of(now)
    return begins.replace(year=begins.year + begins.month // 12, month=begins.month % 12 + 1)


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
    numbers = select(AddressRow.person_id).where(AddressRow.channel.in_(charged_channels()))
    texted = select(PersonRow.crew_id).where(PersonRow.id.in_(numbers))
    passed_over = (charged_channels(),) if reached else (charged_channels(), ())
    for person, to in owners_of(session, texted, running, *passed_over):
        told = texts_used_up if reached else texts_nearly_used_up
        text = told(used, sms_budget.segments, until)
        name = "reached" if reached else "near"
        key = f"ceiling:{month_of(now):%Y-%m}:{sms_budget.segments}:{name}:{person.id}"
        if plan(session, key, Purpose.ALERT, to, OutgoingMessage(to.address, text), now):
            log.warning(
                "texts of this month near their ceiling", used=used, most=sms_budget.segments
            )
