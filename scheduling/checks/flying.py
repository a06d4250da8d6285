"""Days on which no queen could fly put her first eggs back."""

from dataclasses import dataclass
from datetime import date

from scheduling.trade import table
from scheduling.trade.window import Window
from scheduling.units.state import UnitState


@dataclass(frozen=True)
class Delayed:
    """A look for eggs, and the days by which the weather has put it back."""

    window: Window
    days: int = 0


def delayed(state: UnitState, window: Window, looked: date | None = None) -> Delayed:
    """Put the look back by one day for each day without flying weather before it.

    Only days on which she was old enough to fly count, after ``looked`` when the unit has been
    looked into since. However bad the weather, the look is not put back past the day from which
    she is given up.
    """
    hatched = state.emergence_due
    if hatched is None or state.mated_when_placed:
        return Delayed(window)
    latest = max(window.best, table.GIVE_UP_FROM_EMERGENCE.after(hatched))
    days = 0
    for day in _grounded(state, hatched, looked):
        later = window.moved(days + 1).best
        if day < window.moved(days).best and later <= latest:
            days += 1
    return Delayed(window.moved(days), days)


def _grounded(state: UnitState, hatched: date, looked: date | None) -> list[date]:
    first = table.FIRST_FLIGHT_FROM_EMERGENCE.after(hatched)
    grounded = sorted(day for day in state.days_not_flying if day >= first)
    return [day for day in grounded if looked is None or day > looked]
