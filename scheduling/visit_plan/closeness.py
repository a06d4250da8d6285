"""What a day is worth to a check of which only the window is known."""

from datetime import date

from scheduling.checks.check import Check

BEST_PER_MILLE, EDGE_PER_MILLE = 1000, 500
"""Worth of the best date, and of the first and last date of a window: our own choice.

The edge is worth half the best date, so that two checks a little off their best dates are as good
as one on its best date and one at its edge.
"""


def closeness(check: Check, day: date) -> int:
    """Give the worth in thousandths: falling evenly from the best date to the window's ends.

    A check that stays open keeps its full worth from its best date on; late work is as urgent on
    the day it is asked for as work on its best date.
    """
    if check.best is None or day == check.best:
        return BEST_PER_MILLE
    end = check.not_before if day < check.best else check.by
    if end is None or (day > check.best and day > end):
        return BEST_PER_MILLE
    lost = BEST_PER_MILLE - EDGE_PER_MILLE
    return BEST_PER_MILLE - lost * abs((day - check.best).days) // abs((end - check.best).days)
