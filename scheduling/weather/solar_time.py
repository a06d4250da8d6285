"""The sun's own clock at a place, by which queens fly, whatever the clocks of the land say."""

from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from astral.julian import julianday, julianday_to_juliancentury
from astral.sun import eq_of_time

HOUR = timedelta(hours=1)


@dataclass(frozen=True)
class Site:
    """Where a yard is: degrees north, degrees east, and the IANA name of its time zone."""

    latitude: float
    longitude: float
    zone: str


@dataclass(frozen=True)
class Span:
    """The time between two aware instants."""

    start: datetime
    end: datetime

    @property
    def hours(self) -> float:
        """How long it is."""
        return max(timedelta(), self.end - self.start) / HOUR

    def overlap(self, start: datetime) -> float:
        """How much of the hour that begins at ``start`` lies in it, from 0 to 1."""
        end = start + HOUR
        if end <= self.start or start >= self.end:
            return 0.0
        return Span(max(start, self.start), min(end, self.end)).hours


def solar_noon(day: date, site: Site) -> datetime:
    """Give the instant on the local date ``day`` at which the sun stands highest.

    Within half a minute, by the equation of time of a general astronomy library.
    """
    midday = datetime.combine(day, time(12), tzinfo=ZoneInfo(site.zone)).astimezone(UTC)
    off = 12 - solar_hour(midday, site.longitude)
    return midday + off * HOUR


def solar_hour(instant: datetime, longitude: float) -> float:
    """Give the local solar time at an aware instant, in hours from 0 to 24; noon is 12."""
    utc = instant.astimezone(UTC)
    minutes_ahead = eq_of_time(julianday_to_juliancentury(julianday(utc)))
    clock = utc.hour + utc.minute / 60 + utc.second / 3600
    return (clock + longitude / 15 + minutes_ahead / 60) % 24


def between_solar_hours(day: date, site: Site, first: float, last: float) -> Span:
    """Give the span of the local date between two hours of solar time."""
    noon = solar_noon(day, site)
    return Span(noon + (first - 12) * HOUR, noon + (last - 12) * HOUR)
