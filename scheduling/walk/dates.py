"""From chances to the days on which to look, and to give up."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from scheduling.quickly_made import quickly_made
from scheduling.walk.case import DAYS, Case
from scheduling.walk.odds import USUAL, Odds
from scheduling.walk.shift import NO_SHIFT, Shift
from scheduling.walk.spread import certain
from scheduling.walk.walk import Chances, Walked, walk

NEAREST = 0.005
"""A chance is held against the odds to the nearest percent; no figure is known any closer."""


@quickly_made
@dataclass(frozen=True, slots=True)
class Days:
    """Days of the walk of one queen; one that never comes stands as the last day walked."""

    not_before: int
    best: int
    latest: int
    give_up: int


def days(walked: Walked, cases: Sequence[Case], odds: Odds) -> list[Days]:
    """Give each queen's days, all after the last time something was seen of her."""
    ahead = np.arange(DAYS) > np.array([[_last_seen(case)] for case in cases])
    eggs = walked.eggs_if_alive
    looks = (odds.not_before, odds.best, odds.latest)
    columns = [_first(ahead & (eggs >= odd - NEAREST)) for odd in looks]
    old_enough = ahead & (walked.eggs.cumsum(axis=1) > 0)
    columns.append(_first(old_enough & (walked.lays_if_not_yet < odds.give_up)))
    return [Days(*row) for row in np.stack(columns, axis=1).tolist()]


@cache
def shift_by(odds: Odds) -> Shift:
    """Give the days by which these odds move the dates of a queen just out, in fair weather."""
    if odds == USUAL:
        return NO_SHIFT
    just_out = [Case(certain(0), from_cell=False)]
    walked = walk(just_out)
    (own,), (usual,) = days(walked, just_out, odds), days(walked, just_out, USUAL)
    return Shift(
        own.not_before - usual.not_before,
        own.best - usual.best,
        own.latest - usual.latest,
        own.give_up - usual.give_up,
    )


def _last_seen(case: Case) -> int:
    return case.seen[-1][0] if case.seen else -1


def _first(holds: Chances | NDArray[np.bool_]) -> NDArray[np.intp]:
    """Give the first day for which it holds, the last day where it never does."""
    return np.where(holds.any(axis=1), holds.argmax(axis=1), DAYS - 1)
