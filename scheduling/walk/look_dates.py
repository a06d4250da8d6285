"""From the chances of a queen to the days on which to look, and to give up."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from scheduling.walk.case import DAYS, Case
from scheduling.walk.model import Walked, share_of, walk
from scheduling.walk.odds import NO_SHIFT, USUAL, Odds, Shift
from scheduling.walk.spread import certain

NEAREST = 0.005
"""A chance is held against the odds to the nearest percent; no figure is known any closer."""


@dataclass(frozen=True, slots=True)
class LookDays:
    """Days of the walk of one queen; one that never comes stands as the last day walked."""

    not_before: int
    best: int
    latest: int
    give_up: int


def look_days(walked: Walked, case: Case, odds: Odds) -> LookDays:
    """Give the queen's days, all after the last time something was seen of her."""
    first = case.seen[-1][0] + 1 if case.seen else 0
    not_before = _first_at(odds.not_before, walked, first)
    best = _first_at(odds.best, walked, not_before)
    latest = _first_at(odds.latest, walked, best)
    return LookDays(not_before, best, latest, _give_up(walked.eggs, first, odds.give_up))


@cache
def shift_by(odds: Odds) -> Shift:
    """Give the days by which these odds move the dates of a queen just out, in fair weather."""
    if odds == USUAL:
        return NO_SHIFT
    just_out = Case(certain(0), from_cell=False)
    walked = walk(just_out)
    own, usual = look_days(walked, just_out, odds), look_days(walked, just_out, USUAL)
    return Shift(
        own.not_before - usual.not_before,
        own.best - usual.best,
        own.latest - usual.latest,
        own.give_up - usual.give_up,
    )


def _first_at(odds: float, walked: Walked, begin: int) -> int:
    """Give the first day from ``begin`` on with that chance of eggs if she has not failed.

    It is the last day if none has it.
    """
    enough = odds - NEAREST
    for day in range(begin, DAYS):
        if walked.eggs_if_alive(day) >= enough:
            return day
    return DAYS - 1


def _give_up(eggs: Sequence[float], first: int, odds: float) -> int:
    """Give the first day old enough for eggs on which she will hardly lay if she does not."""
    may_lay = next((day for day, chance in enumerate(eggs) if chance > 0), DAYS)
    for day in range(max(first, may_lay), DAYS):
        if share_of(eggs[-1] - eggs[day], 1 - eggs[day]) < odds:
            return day
    return DAYS - 1
