"""Errands: checks of the calendar with the days on which the crew can go and serve each."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence, Set
from dataclasses import dataclass, field
from datetime import date
from types import MappingProxyType

from scheduling.checks.calendar import Calendar
from scheduling.checks.check import Check, expired
from scheduling.checks.rests import UNDER_THE_LID, in_rest
from scheduling.trade.constant import days_after
from scheduling.visit_plan.worth import BEST_PER_MILLE, Worth, closeness

HORIZON_DAYS = 14
"""A plan looks this many days ahead, its first day among them."""


def days_away(first: date, weekdays: Set[int], days: int = HORIZON_DAYS) -> frozenset[date]:
    """Give the dates of a plan that fall on none of these weekdays, Monday being 0."""
    dates = (days_after(first, ahead) for ahead in range(days))
    return frozenset(day for day in dates if day.weekday() not in weekdays)


@dataclass(frozen=True)
class Drives:
    """What the crew can do in the days of a plan.

    Attributes:
        first: the first local date, as a rule today.
        days: how many days the plan covers.
        away: dates on which nobody can go.
        unfit: dates on which the colonies of a yard cannot be opened, by the yard's name.
        yards_a_day: how many yards can be visited in one day at most; None for no limit.

    Raises:
        ValueError: the plan covers no day, or the limit leaves no yard.
    """

    first: date
    days: int = HORIZON_DAYS
    away: frozenset[date] = frozenset()
    unfit: Mapping[str, frozenset[date]] = field(default_factory=lambda: MappingProxyType({}))
    yards_a_day: int | None = None

    def __post_init__(self) -> None:
        if self.days < 1:
            raise ValueError("a plan covers at least one day")
        if self.yards_a_day is not None and self.yards_a_day < 1:
            raise ValueError("at least one yard can be visited in a day")

    @property
    def last(self) -> date:
        """The last date of the plan."""
        return days_after(self.first, self.days - 1)

    def open_days(self, yard: str) -> tuple[date, ...]:
        """Give the dates on which the yard can be visited and its colonies opened."""
        shut = self.away | self.unfit.get(yard, frozenset())
        dates = (days_after(self.first, ahead) for ahead in range(self.days))
        return tuple(day for day in dates if day not in shut)


@dataclass(frozen=True)
class Errand:
    """A check that visits may serve.

    Attributes:
        check: what is to be done, and where.
        days: the dates on which a visit serves it, earliest first; the yard's other open days
            lie before the first or after the last of them.
        per_mille: the worth of each of those dates in thousandths. It rises to one peak, which
            may last for days, and falls after it.
        must: it has to be served on one of them; otherwise it is done where a visit happens to
            be and can wait.

    Raises:
        ValueError: the days are out of order, or the worth has two peaks or none for a day.
    """

    check: Check
    days: tuple[date, ...]
    per_mille: tuple[int, ...]
    must: bool = True

    def __post_init__(self) -> None:
        if len(self.days) != len(self.per_mille):
            raise ValueError("every day has its worth")
        if list(self.days) != sorted(set(self.days)):
            raise ValueError("the days of an errand stand in order, each once")
        if not _single_peaked(self.per_mille):
            raise ValueError(f"worth rises to one peak and falls after it, not {self.per_mille}")

    @property
    def yard(self) -> str:
        """The name of its yard."""
        return self.check.place.yard

    @property
    def peak(self) -> date:
        """The first date of the highest worth."""
        return self.days[self.per_mille.index(max(self.per_mille))]

    def worth(self, day: date) -> int:
        """Give the worth of a date in thousandths; 0 where a visit does not serve it."""
        return dict(zip(self.days, self.per_mille, strict=True)).get(day, 0)


def _single_peaked(worth: tuple[int, ...]) -> bool:
    if not worth:
        return True
    top = worth.index(max(worth))
    up, down = worth[: top + 1], worth[top:]
    return list(up) == sorted(up) and list(down) == sorted(down, reverse=True)


def errands(calendar: Calendar, drives: Drives, worth: Worth = closeness) -> tuple[Errand, ...]:
    """Give every check that is asked for in the days of the plan, with the days that serve it.

    Late work is asked for on the first day, or else on the first open one. A unit that rests is
    not opened: its checks keep the days outside the rest, those nearest their best date where a
    rest cuts their window in two; a window that lies in a rest altogether moves to the first open
    day after it. A check with a last date after the plan, or with none, can wait. An errand that
    must be served and has no day is one that the crew's days leave no room for.
    """
    return tuple(
        _errand(check, checks, drives, worth)
        for checks in calendar.checks.values()
        for check in checks
        if _asked_for(check, drives)
    )


def _asked_for(check: Check, drives: Drives) -> bool:
    if check.best is None or check.follows is not None or expired(check, drives.first):
        return False
    return check.not_before <= drives.last


def _errand(check: Check, checks: tuple[Check, ...], drives: Drives, worth: Worth) -> Errand:
    first, last = _window(check, drives)
    must = last is not None and last <= drives.last
    days = _days(check, checks, drives, first, min(last or drives.last, drives.last))
    if not days and (_late(check, drives) or _rests_through(check, checks, first, last)):
        return _as_soon_as_may_be(check, checks, drives)
    return Errand(check, days, tuple(worth(check, day) for day in days), must)


def _window(check: Check, drives: Drives) -> tuple[date, date | None]:
    """Clip the window to the plan's first day; a window gone by is that day alone."""
    last = check.by if check.by is None else max(check.by, drives.first)
    return max(check.not_before, drives.first), last


def _days(
    check: Check, checks: tuple[Check, ...], drives: Drives, first: date, last: date
) -> tuple[date, ...]:
    open_days = [day for day in drives.open_days(check.place.yard) if first <= day <= last]
    runs = list(_runs(open_days, lambda day: _rests(check, checks, day)))
    assert check.best is not None  # noqa: S101 - only dated checks are asked for
    best = check.best
    return min(runs, key=lambda run: min(abs(day - best) for day in run), default=())


def _runs(days: Iterable[date], shut: Callable[[date], bool]) -> Iterator[tuple[date, ...]]:
    """Cut the days into stretches without a shut day."""
    run: list[date] = []
    for day in days:
        if not shut(day):
            run.append(day)
        elif run:
            yield tuple(run)
            run = []
    if run:
        yield tuple(run)


def _rests(check: Check, checks: tuple[Check, ...], day: date) -> bool:
    return check.why.cause not in UNDER_THE_LID and in_rest(checks, day) is not None


def _rests_through(check: Check, checks: tuple[Check, ...], first: date, last: date | None) -> bool:
    """Whether the unit rests on every day of the window."""
    if last is None:
        return False
    return all(_rests(check, checks, day) for day in _dates(first, last))


def _dates(first: date, last: date) -> Sequence[date]:
    return [days_after(first, ahead) for ahead in range((last - first).days + 1)]


def _late(check: Check, drives: Drives) -> bool:
    return check.by is not None and check.by < drives.first


def _as_soon_as_may_be(check: Check, checks: tuple[Check, ...], drives: Drives) -> Errand:
    """Ask for it on the first open day, after the rest, with full worth: it is late by then."""
    open_days = drives.open_days(check.place.yard)
    free = [day for day in open_days if day >= check.not_before and not _rests(check, checks, day)]
    return Errand(check, tuple(free[:1]), (BEST_PER_MILLE,) * len(free[:1]), must=bool(free))
