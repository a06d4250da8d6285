"""The clock and the time zone of the machine, or the clock of another day."""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from tzlocal import get_localzone_name

_START = time(8)
"""The hour at which a talk on another day begins."""


def own_zone() -> str:
    """The time zone of this machine, as new crews start with it."""
    return get_localzone_name() or "UTC"


class Clock:
    """The present instant, or that of another day which goes on as this one does."""

    def __init__(self, on: date | None, at: time = _START, zone: str | None = None) -> None:
        self._ahead = timedelta(0)
        if on is not None:
            there = datetime.combine(on, at, tzinfo=ZoneInfo(zone or own_zone()))
            self._ahead = there.astimezone(UTC) - datetime.now(UTC)

    def __call__(self) -> datetime:
        """The instant, aware, in UTC."""
        return datetime.now(UTC) + self._ahead
