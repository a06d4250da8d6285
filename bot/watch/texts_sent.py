"""How many segments of SMS were sent to each person in a month: what the carrier charges for."""

from collections import Counter
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

from sqlalchemy import Select, select
from sqlalchemy.orm import Session

from bot.bell.wall_time import local_day
from bot.channels.sms.names import CHANNEL_NAME
from bot.channels.sms.segments import segments
from bot.post.ceiling import CHARGED
from bot.post.tables import OutboxRow
from scheduling.records.tables import PersonRow

_A_DAY = timedelta(days=1)


@dataclass(frozen=True)
class TextsSent:
    """What went to one person over SMS in one month.

    Attributes:
        number: the person's; 0 for all who have not joined.
        name: the person's; empty for those.
        month: its first day, by the person's own zone.
        segments: how many, each once, though a repeat in doubt may be charged twice.

    """

    number: int
    name: str
    month: date
    segments: int


def texts_sent(session: Session, now: datetime) -> tuple[TextsSent, ...]:
    """Count what went out in this month and the one before, the newest first.

    Args:
        session: a transaction.
        now: aware instant.

    """
    begins = _month(_month(now.date()) - _A_DAY)
    counted: Counter[tuple[date, int, str]] = Counter()
    for text, ended_at, number, name, zone in session.execute(_sent_since(begins)):
        month = _month(local_day(ended_at or now, zone or "UTC"))
        if month >= begins:
            counted[month, number or 0, name or ""] += segments(text)
    by_month = sorted(counted.items(), key=lambda of: (-of[0][0].toordinal(), of[0][1]))
    return tuple(TextsSent(number, name, month, count) for (month, number, name), count in by_month)


def _sent_since(day: date) -> Select[str, datetime | None, int, str, str]:
    # A zone may be a day behind or ahead of UTC.
    since = datetime(day.year, day.month, day.day, tzinfo=UTC) - _A_DAY
    return (
        select(OutboxRow.text, OutboxRow.ended_at, PersonRow.id, PersonRow.name, PersonRow.zone)
        .outerjoin(PersonRow, PersonRow.id == OutboxRow.person_id)
        .where(OutboxRow.channel == CHANNEL_NAME, OutboxRow.state.in_(CHARGED))
        .where(OutboxRow.ended_at >= since)
    )


def _month(day: date) -> date:
    return day.replace(day=1)
