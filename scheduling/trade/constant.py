"""A figure of the trade: its value, its range, what it rests on, and the dates it gives."""

from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from functools import cached_property


def days_after(day: date, days: int) -> date:
    """Give the date ``days`` after ``day``; before it when negative."""
    return day + timedelta(days)


@dataclass(frozen=True, slots=True)
class Window:
    """The earliest, the best and the last useful local date of a look.

    Raises:
        ValueError: the three are out of order.
    """

    not_before: date
    best: date
    by: date

    def __post_init__(self) -> None:
        if not self.not_before <= self.best <= self.by:
            raise ValueError(f"{self.not_before}, {self.best}, {self.by} are out of order")

    def moved(self, days: int) -> "Window":
        """Give the same window ``days`` later."""
        if days == 0:
            return self
        return Window(
            days_after(self.not_before, days),
            days_after(self.best, days),
            days_after(self.by, days),
        )

    def not_earlier_than(self, day: date) -> "Window":
        """Bring every date before ``day`` up to it."""
        if day <= self.not_before:
            return self
        return Window(day, max(self.best, day), max(self.by, day))

    def best_on(self, day: date) -> "Window":
        """Stretch the window as far as needed to have its best date on ``day``."""
        if day == self.best:
            return self
        return Window(min(self.not_before, day), day, max(self.by, day))

    def ending_by(self, day: date) -> "Window":
        """Cut the window off after ``day``, though never before its best date."""
        return Window(self.not_before, self.best, max(self.best, min(self.by, day)))


class Evidence(StrEnum):
    """How a figure came into the table."""

    READ = "read"
    """Read in the source named."""
    DERIVED = "derived"
    """Arithmetic on figures that were read in the sources named."""
    FROM_MEMORY = "from_memory"
    """Known, not read again."""
    COMMON_PRACTICE = "common_practice"
    """Keepers do it so; no source was found."""
    OUR_RULE = "our_rule"
    """Chosen here; the note says why."""


class Unit(StrEnum):
    """What a figure is counted in."""

    DAYS = "days"
    HOURS = "hours"
    HOUR_OF_DAY = "hour_of_day"
    SHARE = "share"
    DEEP_FRAMES = "deep_frames"
    SQUARE_DECIMETRES = "square_decimetres"
    CELLS_PER_SQUARE_DECIMETRE = "cells_per_square_decimetre"
    COMB_SIDES = "comb_sides"
    CELLS = "cells"
    BEES = "bees"
    SHAKES = "shakes"
    EGGS_A_DAY = "eggs_a_day"
    KILOGRAMS = "kilograms"
    GRAMS_A_DAY_PER_THOUSAND = "grams_a_day_per_thousand"
    LITRES = "litres"
    MILLIMETRES = "millimetres"
    CELSIUS = "celsius"
    FAHRENHEIT = "fahrenheit"
    KILOMETRES_PER_HOUR = "kilometres_per_hour"
    MILLIMETRES_PER_HOUR = "millimetres_per_hour"
    MINUTES = "minutes"
    BEETLES = "beetles"


@dataclass(frozen=True)
class Source:
    """Where a figure was read."""

    author: str
    title: str
    address: str
    year: int | None = None

    def __str__(self) -> str:
        year = f" ({self.year})" if self.year is not None else ""
        return f"{self.author}{year}, {self.title}, {self.address}"


@dataclass(frozen=True)
class Constant:
    """One figure of the trade.

    Where the figure times a look, ``low``, ``value`` and ``high`` are the days after its start
    on which to look at the earliest, best and at the latest.

    Attributes:
        meaning: what is counted, and from when.
        figure: value, low, high: what is in use, the least and the most that the sources give.
        note: which source was followed and why, or why the figure was chosen.

    Raises:
        ValueError: the value lies outside its range.
    """

    meaning: str
    figure: tuple[float, float, float]
    unit: Unit
    evidence: Evidence
    sources: tuple[Source, ...] = ()
    note: str = ""

    def __post_init__(self) -> None:
        if not self.low <= self.value <= self.high:
            raise ValueError(f"{self.meaning}: {self.value} lies outside {self.low}..{self.high}")

    @cached_property
    def value(self) -> float:
        """The figure in use, in ``unit``."""
        return self.figure[0]

    @property
    def low(self) -> float:
        """The least that the sources give."""
        return self.figure[1]

    @property
    def high(self) -> float:
        """The most that the sources give."""
        return self.figure[2]

    @cached_property
    def days(self) -> int:
        """The figure as whole days.

        Raises:
            ValueError: it is not counted in whole days.
        """
        return _whole_days(self.value, self)

    def after(self, day: date) -> date:
        """Give the date this many days after ``day``."""
        return day + self._span

    def before(self, day: date) -> date:
        """Give the date this many days before ``day``."""
        return day - self._span

    def window(self, start: date) -> Window:
        """Give the earliest, best and latest date, counted from ``start``."""
        low, value, high = self._spans
        return Window(start + low, start + value, start + high)

    @cached_property
    def _span(self) -> timedelta:
        return timedelta(days=self.days)

    @cached_property
    def _spans(self) -> tuple[timedelta, timedelta, timedelta]:
        low, value, high = (
            timedelta(days=_whole_days(number, self))
            for number in (self.low, self.value, self.high)
        )
        return low, value, high


def _whole_days(number: float, constant: Constant) -> int:
    if constant.unit is not Unit.DAYS or number != int(number):
        raise ValueError(f"{constant.meaning} is not counted in whole days")
    return int(number)


def in_days(
    meaning: str,
    figure: tuple[float, float, float],
    evidence: Evidence,
    sources: tuple[Source, ...] = (),
    note: str = "",
) -> Constant:
    """Give a figure that is counted in days, as most are."""
    return Constant(meaning, figure, Unit.DAYS, evidence, sources, note)
