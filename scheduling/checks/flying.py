"""Weather in which no queen could fly puts her first eggs back."""

from dataclasses import dataclass
from datetime import date

from scheduling.trade import table
from scheduling.trade.window import Window, days_after
from scheduling.units.state import UnitState


@dataclass(frozen=True, slots=True)
class Delayed:
    """A look for eggs, and the days by which the weather has put it back."""

    window: Window
    days: int = 0


@dataclass(frozen=True)
class Late:
    """A queen so old at a look that fewer of her age mate well.

    Attributes:
        days: her age in days at the look.
        by: the date from which she can no more mate.

    """

    days: int
    by: date


def weather_known(state: UnitState) -> bool:
    """Tell whether anything is known of the weather in which this queen may mate."""
    return state.outlook is not None and state.outlook.weather_known


def delayed(state: UnitState, window: Window) -> Delayed:
    """Put a look back to where the walk has it; the published days of fair weather are the least.

    However bad the weather, the look is not put back past the day from which she is given up.
    """
    outlook = state.outlook
    if outlook is None or state.emergence_due is None:
        return Delayed(window)
    last = table.GIVE_UP_FROM_EMERGENCE.after(state.emergence_due)
    fair = _put_back(window, outlook.fair_look, last)
    found = _put_back(window, outlook.look, last)
    return Delayed(found, (found.best - fair.best).days)


def too_late_to_mate_well(state: UnitState, day: date) -> Late | None:
    """Tell how old she is on ``day`` if fewer queens of that age mate well, else None."""
    hatched = state.emergence_due
    if hatched is None or state.mated_when_placed:
        return None
    limits = table.GIVE_UP_FROM_EMERGENCE.window(hatched)
    return Late((day - hatched).days, limits.by) if day > limits.not_before else None


def _put_back(window: Window, walked: Window, last: date) -> Window:
    """Give the later of the two for each date, and none of the walk's that are past ``last``."""
    beyond = max((window.by - window.best).days, 0)
    return Window(
        max(window.not_before, min(walked.not_before, last)),
        max(window.best, min(walked.best, last)),
        max(window.by, min(walked.by, days_after(last, beyond))),
    )
