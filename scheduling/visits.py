"""Which yard on which day: what is due, what must rest, what waits for a fit day, and who goes."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date

from scheduling.check_kinds import CHECK_FACTS, UPKEEP, CheckKind
from scheduling.checks.calendar import Calendar
from scheduling.checks.check import Check, expired, last_useful
from scheduling.checks.rests import UNDER_THE_LID, in_rest
from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place
from scheduling.trade import table
from scheduling.trade.constant import days_after
from scheduling.weather.fit_hours import Unfit
from scheduling.weather.yard_weather import YardWeather


@dataclass(frozen=True, slots=True)
class Due:
    """A check on a day.

    Attributes:
        check: what is due, and where.
        overdue: its last useful date has gone by.
    """

    check: Check
    overdue: bool = False


@dataclass(frozen=True)
class Waiting:
    """A check that is due and waits for a day on which the unit can be opened.

    Attributes:
        check: what waits.
        until: the next day fit for opening.
        unfit: what forbids opening until then.
    """

    check: Check
    until: date
    unfit: Unfit


@dataclass(frozen=True)
class DayPlan:
    """What a day asks for.

    Attributes:
        day: the local date.
        due: what is due, overdue first, then by place. Queens that may be taken are not among
            it: they can wait, and ``ready_queens`` gives them.
        rests: the rests in force; ``by`` is their last day.
        waiting: what is due and waits for better weather.
    """

    day: date
    due: tuple[Due, ...] = ()
    rests: tuple[Check, ...] = ()
    waiting: tuple[Waiting, ...] = ()

    @property
    def yards(self) -> tuple[str, ...]:
        """The yards in which something is due."""
        return tuple(sorted({item.check.place.yard for item in self.due}))


@dataclass(frozen=True)
class ReadyQueen:
    """A unit whose queen may be taken, and since when she is known to lay."""

    place: Place
    eggs_on: date
    days_laying: int


def due_on(calendar: Calendar, day: date) -> DayPlan:
    """Work out the plan of a day: what is due by its best date and neither foreseen nor expired.

    Food and traps of a unit that rests that day are held back until it may be opened.
    """
    due: list[Due] = []
    rests: list[Check] = []
    for place in _in_order(calendar.checks):
        checks = calendar.checks[place]
        resting = in_rest(checks, day)
        if resting is not None:
            rests.append(resting)
        wanted = [check for check in checks if is_due(check, day)]
        if resting is not None:
            wanted = [check for check in wanted if not _is_held(check)]
        work = [check for check in wanted if check.kind is not CheckKind.TAKE]
        due.extend(Due(check, _overdue(check, day)) for check in work)
    due.sort(key=lambda item: not item.overdue)
    return DayPlan(day, tuple(due), tuple(rests))


def is_due(check: Check, day: date) -> bool:
    """Tell whether the check is asked for on ``day``."""
    if check.best is None or check.best > day or check.follows is not None:
        return False
    return not expired(check, day)


def coming(calendar: Calendar, first: date, last: date) -> tuple[Check, ...]:
    """Give the checks whose best date lies between two dates, both included, earliest first.

    Those that are only foreseen are among them; they name what they follow.
    """
    found = [check for check in _checks(calendar) if check.best and first <= check.best <= last]
    return tuple(sorted(found, key=lambda check: check.best or date.max))


def ready_queens(calendar: Calendar, day: date) -> tuple[ReadyQueen, ...]:
    """Give the units whose queen may be taken on ``day``, the one that has laid longest first."""
    found = [
        ReadyQueen(check.place, eggs_on, (day - eggs_on).days)
        for check in _checks(calendar)
        if check.kind is CheckKind.TAKE and is_due(check, day)
        if (eggs_on := calendar.units[check.place].eggs_on) is not None
    ]
    return tuple(sorted(found, key=lambda queen: queen.eggs_on))


def failing(calendar: Calendar, day: date) -> tuple[Check, ...]:
    """Give what must be put right at units that go wrong: no queen, a bad one, or a late one."""
    return tuple(
        check
        for check in _checks(calendar)
        if CHECK_FACTS[check.kind].repair and check.follows is None and check.not_before <= day
    )


def taken_on(entries: Iterable[Entry], day: date) -> dict[str, str]:
    """Tell who took which yard that day, from standing entries; the last to say so has it."""
    return {
        entry.place.yard: entry.person
        for entry in entries
        if entry.kind is EntryKind.YARD_TAKEN and entry.on == day
    }


def _checks(calendar: Calendar) -> Iterator[Check]:
    for place in _in_order(calendar.checks):
        yield from calendar.checks[place]


def _in_order(places: Iterable[Place]) -> list[Place]:
    """Sort places as they stand in the yards, batches after units."""
    return sorted(places, key=lambda p: (p.yard, p.unit is None, p.unit or p.batch or ""))


def _overdue(check: Check, day: date) -> bool:
    return check.by is not None and check.by < day


def _is_held(check: Check) -> bool:
    """Tell whether the check waits while its unit rests."""
    return check.kind in UPKEEP and check.why.cause not in UNDER_THE_LID


def moved_to_fit_days(plan: DayPlan, weather: Mapping[str, YardWeather]) -> DayPlan:
    """Give the plan with those checks set apart that wait for a day fit for opening.

    Nothing is lost by it: what waits stands under ``waiting`` and is due again on its day.
    """
    due: list[Due] = []
    waiting: list[Waiting] = []
    unfit = {yard: at for yard, at in weather.items() if unfit_on(plan.day, at) is not None}
    for item in plan.due:
        at_yard = unfit.get(item.check.place.yard)
        waits = None if at_yard is None else _waiting(item.check, plan.day, at_yard)
        if waits is None:
            due.append(item)
        else:
            waiting.append(waits)
    return replace(plan, due=tuple(due), waiting=tuple(waiting))


def fit_day(check: Check, day: date, weather: YardWeather) -> date:
    """Give the day on which to do a check that is due on ``day``: that day, or the next fit one.

    A day of unknown weather counts as fit. What is done under the lid does not wait. Nor does
    a check for which no fit day comes in time: while it is of use, and before the forecast
    tells little.
    """
    last = _last_day(check, day)
    if check.why.cause in UNDER_THE_LID:
        return day
    candidate = day
    while candidate <= last:
        if unfit_on(candidate, weather) is None:
            return candidate
        candidate = days_after(candidate, 1)
    return day


def unfit_on(day: date, weather: YardWeather) -> Unfit | None:
    """Tell what forbids opening on a date; None where it is fit or not known."""
    known = weather.days.get(day)
    return known.unfit if known is not None else None


def unfit_days(weather: Mapping[str, YardWeather]) -> dict[str, frozenset[date]]:
    """Give the dates on which the colonies of each yard cannot be opened."""
    return {
        yard: frozenset(day for day in known.days if unfit_on(day, known) is not None)
        for yard, known in weather.items()
    }


def _waiting(check: Check, day: date, weather: YardWeather) -> Waiting | None:
    until, unfit = fit_day(check, day, weather), unfit_on(day, weather)
    return None if until == day or unfit is None else Waiting(check, until, unfit)


def _last_day(check: Check, day: date) -> date:
    longest = table.LONGEST_WAIT.after(day)
    useful = last_useful(check)
    return longest if useful is None else min(longest, useful)
