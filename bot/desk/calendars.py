"""The calendar of a crew with all that bears on it: its log, its weather, odds and feeders."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta

from scheduling.checks.calendar import Calendar
from scheduling.checks.feeders import in_feeders
from scheduling.checks.work_out_again import WorkedOut, work_out_again
from scheduling.entries import Entry
from scheduling.places import Place
from scheduling.records.gateway import CrewRecords
from scheduling.walk.odds import Odds
from scheduling.weather.traps import traps_by_warmth
from scheduling.weather.yard_weather import YardWeather

_LOOKED_BACK = timedelta(days=60)
"""Longer than any queen is waited for."""


@dataclass(frozen=True)
class KnownCalendar:
    """A calendar as it was worked out last, to work the next one out from.

    Attributes:
        worked_out: by the log, the weather and the crew's odds.
        weather: what was known of each yard's.
        litres: what a feeder of the person holds for whom it was.
        by_warmth: the same with traps put back where it is cool.
        fed: the same with doses in feeders.

    """

    worked_out: WorkedOut
    weather: Mapping[str, YardWeather]
    litres: float
    by_warmth: Calendar
    fed: Calendar

    def came_of(
        self,
        log: Iterable[Entry],
        weather: Mapping[str, YardWeather],
        litres: float,
        odds: Odds,
    ) -> bool:
        """Tell whether it came of the very same."""
        known = self.worked_out
        same = known.log is log and self.weather == weather
        return same and (self.litres, known.odds) == (litres, odds)


def weather_about(records: CrewRecords, day: date) -> Mapping[str, YardWeather]:
    """The weather kept for a crew's yards, as far back as it can matter on a day."""
    return records.weather(day - _LOOKED_BACK)


def calendar_of(
    records: CrewRecords,
    log: Iterable[Entry],
    weather: Mapping[str, YardWeather],
    feeder_litres: float,
    odds: Odds,
) -> Calendar:
    """The calendar of a crew by its odds, for a person whose feeders hold so much.

    Of units of which nothing new was told, what this process worked out before is used again.
    """
    known = after(records.recall(KnownCalendar), log, weather, feeder_litres, odds)
    records.remember(known)
    return known.fed


def after(
    before: KnownCalendar | None,
    log: Iterable[Entry],
    weather: Mapping[str, YardWeather],
    litres: float,
    odds: Odds,
) -> KnownCalendar:
    """Work a calendar out anew, sooner if the one before came of nearly the same."""
    if before is not None and before.came_of(log, weather, litres, odds):
        return before
    worked_out = work_out_again(before.worked_out if before else None, log, weather, odds)
    calendar, warmed, fed = worked_out.calendar, None, None
    if before is not None and before.weather == weather:
        warmed = before.by_warmth
    anew = worked_out.anew
    by_warmth = _again(warmed, calendar, anew, lambda some: traps_by_warmth(some, weather))
    if before is not None and before.litres == litres:
        fed = before.fed
    in_doses = _again(
        fed, by_warmth, None if warmed is None else anew, lambda some: in_feeders(some, litres)
    )
    return KnownCalendar(worked_out, weather, litres, by_warmth, in_doses)


def _again(
    before: Calendar | None,
    calendar: Calendar,
    anew: frozenset[Place] | None,
    rule: Callable[[Calendar], Calendar],
) -> Calendar:
    """Follow a rule that goes unit by unit, for the units that were worked out ``anew``.

    ``before`` is what came of the calendar before by the rule.
    """
    if before is None or anew is None:
        return rule(calendar)
    changed = {place: calendar.checks[place] for place in anew}
    fresh = rule(replace(calendar, checks=changed)).checks
    return replace(calendar, checks={**before.checks, **fresh})
