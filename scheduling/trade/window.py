"""Dates between which something is best done."""

from dataclasses import dataclass
from datetime import date, timedelta


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
