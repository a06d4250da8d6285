"""From the chances of one queen to the days on which to look, and to give up."""

from collections.abc import Iterable
from functools import cache

from scheduling.walk.alone import WalkedAlone, walk_alone
from scheduling.walk.case import DAYS, Case
from scheduling.walk.days import CERTAIN, NEAREST, Days
from scheduling.walk.odds import USUAL, Odds
from scheduling.walk.shift import NO_SHIFT, Shift
from scheduling.walk.spread import certain


def days_alone(walked: WalkedAlone, case: Case, odds: Odds) -> Days:
    """Give the queen's days, all after the last time something was seen of her."""
    first = case.seen[-1][0] + 1 if case.seen else 0
    eggs = [_of_those_left(eggs, 1 - failed) for eggs, failed in _from(first, walked)]
    return Days(
        _first(first, (chance >= odds.not_before - NEAREST for chance in eggs)),
        _first(first, (chance >= odds.best - NEAREST for chance in eggs)),
        _first(first, (chance >= odds.latest - NEAREST for chance in eggs)),
        _give_up(walked.eggs, first, odds.give_up),
    )


@cache
def shift_by(odds: Odds) -> Shift:
    """Give the days by which these odds move the dates of a queen just out, in fair weather."""
    if odds == USUAL:
        return NO_SHIFT
    just_out = Case(certain(0), from_cell=False)
    walked = walk_alone(just_out)
    own, usual = days_alone(walked, just_out, odds), days_alone(walked, just_out, USUAL)
    return Shift(
        own.not_before - usual.not_before,
        own.best - usual.best,
        own.latest - usual.latest,
        own.give_up - usual.give_up,
    )


def _from(first: int, walked: WalkedAlone) -> Iterable[tuple[float, float]]:
    return zip(walked.eggs[first:], walked.failed[first:], strict=True)


def _give_up(eggs: tuple[float, ...], first: int, odds: float) -> int:
    """Give the first day old enough for eggs on which she will hardly lay if she does not."""
    may_lay = next((day for day, chance in enumerate(eggs) if chance > 0), DAYS)
    after = max(first, may_lay)
    return _first(after, (_lays_later(now, eggs[-1]) < odds for now in eggs[after:]))


def _lays_later(now: float, at_last: float) -> float:
    return _of_those_left(max(at_last - now, 0.0), 1 - now)


def _of_those_left(chance: float, left: float) -> float:
    return chance / left if left > CERTAIN else 0.0


def _first(begin: int, holds: Iterable[bool]) -> int:
    """Give the first day from ``begin`` on for which it holds, the last day where it never does."""
    return next((day for day, told in enumerate(holds, begin) if told), DAYS - 1)
