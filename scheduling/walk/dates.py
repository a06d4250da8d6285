"""From the chances of many queens to the days on which to look, and to give up."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from scheduling.walk.case import DAYS, Case
from scheduling.walk.days import NEAREST, Days
from scheduling.walk.odds import Odds
from scheduling.walk.walk import Chances, Walked


def days(walked: Walked, cases: Sequence[Case], odds: Odds) -> list[Days]:
    """Give each queen's days, all after the last time something was seen of her."""
    ahead = np.arange(DAYS) > np.array([[_last_seen(case)] for case in cases])
    eggs = walked.eggs_if_alive
    looks = (odds.not_before, odds.best, odds.latest)
    columns = [_first(ahead & (eggs >= odd - NEAREST)) for odd in looks]
    old_enough = ahead & (walked.eggs.cumsum(axis=1) > 0)
    columns.append(_first(old_enough & (walked.lays_if_not_yet < odds.give_up)))
    return [Days(*row) for row in np.stack(columns, axis=1).tolist()]


def _last_seen(case: Case) -> int:
    return case.seen[-1][0] if case.seen else -1


def _first(holds: Chances | NDArray[np.bool_]) -> NDArray[np.intp]:
    """Give the first day for which it holds, the last day where it never does."""
    return np.where(holds.any(axis=1), holds.argmax(axis=1), DAYS - 1)
