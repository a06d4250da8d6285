"""On which days the crew can go where, and to how many yards in a day."""

from collections.abc import Mapping, Set
from dataclasses import dataclass, field
from datetime import date
from types import MappingProxyType

from scheduling.trade.window import days_after

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
