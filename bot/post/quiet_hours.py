"""Hours of the day in which nobody is sent what they did not just ask for."""

from dataclasses import dataclass
from datetime import UTC, datetime, time, timedelta
from zoneinfo import ZoneInfo

from bot.bell.wall_time import local_day
from bot.channels import console
from bot.channels.sms.phone_number import CHANNEL_NAME
from scheduling.records.people import Person

_DAY = timedelta(days=1)
_EVENING_MORNING_HOURS = 1
"""How long after its hour a morning that somebody wants in their quiet evening may be tried."""


@dataclass(frozen=True)
class QuietHours:
    """A span of every day by the wall clock, over midnight if it begins later than it ends.

    Attributes:
        begin: the first quiet minute.
        end: the first minute that is not quiet; the same as ``begin`` for no quiet at all.

    """

    begin: time
    end: time

    def hold(self, at: time) -> bool:
        """Tell whether it is quiet at a time of day."""
        if self.begin <= self.end:
            return self.begin <= at < self.end
        return at >= self.begin or at < self.end


TEXTS = QuietHours(time(20), time(8))
"""When no text goes out unasked: our rule; the law of a place may ask for more."""

OTHERS = QuietHours(time(21), time(6))
"""When no chat and no e-mail goes out unasked: our rule."""


NONE = QuietHours(time(0), time(0))


def usual_quiet(channel: str, person: Person) -> QuietHours:
    """Give a person's quiet hours: their own, or those of the channel.

    Whoever sits at a terminal is awake.
    """
    if channel == console.NAME:
        return NONE
    if person.quiet_from is not None and person.quiet_until is not None:
        return QuietHours(person.quiet_from, person.quiet_until)
    return TEXTS if channel == CHANNEL_NAME else OTHERS


def quiet_on(channel: str, person: Person) -> QuietHours:
    """Give the quiet hours of a person's morning, which comes in them only if they asked for it."""
    hours = usual_quiet(channel, person)
    if person.morning_asked_at is None or not hours.hold(person.morning):
        return hours
    return _opened(hours, person.morning)


def _opened(hours: QuietHours, morning: time) -> QuietHours:
    if morning < hours.end:
        return QuietHours(hours.begin, morning)
    after = time((morning.hour + _EVENING_MORNING_HOURS) % 24, morning.minute)
    return QuietHours(after, hours.end) if hours.hold(after) else QuietHours(after, after)


def quiet_end(now: datetime, hours: QuietHours, zone: str) -> datetime | None:
    """Give the instant at which the quiet that reigns now ends; None if there is none.

    Args:
        now: aware instant.
        hours: the quiet hours.
        zone: the time zone whose wall clock they go by.

    Returns:
        An aware UTC instant after ``now`` that is not quiet itself. An end that comes twice
        (clocks put back) is the first that is not past; one that never comes (clocks put forward)
        is as long after the change as the clock would have shown.

    """
    if not hours.hold(_wall(now, zone)):
        return None
    first = local_day(now, zone)
    ends = (
        datetime.combine(first + ahead * _DAY, hours.end, ZoneInfo(zone)).replace(fold=fold)
        for ahead in range(4)
        for fold in (0, 1)
    )
    instants = (end.astimezone(UTC) for end in ends)
    return min(end for end in instants if end > now and not hours.hold(_wall(end, zone)))


def _wall(instant: datetime, zone: str) -> time:
    return instant.astimezone(ZoneInfo(zone)).time()
