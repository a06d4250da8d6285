"""How sure a keeper wants to be of eggs or their absence, and the days on which that is so."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from scheduling.trade.constant import Window, days_after
from scheduling.walk.case import DAYS, Case
from scheduling.walk.model import Walked, share_of, walk
from scheduling.walk.stages import certain


@dataclass(frozen=True)
class Odds:
    """Chances at which a date is set.

    With fair weather the defaults give the published calendars: eggs looked for 10 to 14 days
    after emergence, best on day 12.

    Attributes:
        not_before: chance of eggs, if she is alive, from which a look may pay.
        best: chance of eggs, if she is alive, at which a look pays.
        latest: chance of eggs, if she is alive, at which it should be done.
        give_up: chance that she will ever lay, if still there are no eggs, under which she is
            given up.

    Raises:
        ValueError: they are not chances, or out of order.

    """

    not_before: float = 0.5
    best: float = 0.8
    latest: float = 0.9
    give_up: float = 0.1

    def __post_init__(self) -> None:
        if not 0 < self.not_before <= self.best <= self.latest < 1:
            raise ValueError("the chances for a look must rise, between 0 and 1")
        if not 0 < self.give_up < 1:
            raise ValueError("the chance for giving up must lie between 0 and 1")


USUAL = Odds()

BOLDEST, MOST_CAREFUL = 0.5, 0.95
"""Between these a crew sets the chance of eggs at which it looks: our own choice."""

SOONEST_GIVEN_UP, LATEST_GIVEN_UP = 0.5, 0.01
"""Between these it sets the chance under which a queen is given up: our own choice."""


def settled(best: float | None = None, give_up: float | None = None) -> Odds:
    """Give the odds of a crew that settled on one or both; what it left open is as usual.

    Raises:
        ValueError: a chance is not between the limits.

    """
    best = USUAL.best if best is None else best
    give_up = USUAL.give_up if give_up is None else give_up
    if not BOLDEST <= best <= MOST_CAREFUL:
        raise ValueError(f"a look pays between {BOLDEST} and {MOST_CAREFUL}, not at {best}")
    if not LATEST_GIVEN_UP <= give_up <= SOONEST_GIVEN_UP:
        raise ValueError(f"a queen is given up under {LATEST_GIVEN_UP} to {SOONEST_GIVEN_UP}")
    return Odds(min(USUAL.not_before, best), best, max(USUAL.latest, best), give_up)


@dataclass(frozen=True)
class Shift:
    """Days by which the dates of a look for eggs, and of giving up, are later; earlier if negative.

    It is the same for every queen: what the odds move for one that is out on day 0, in fair
    weather, held against the usual odds. The usual odds move nothing.
    """

    not_before: int = 0
    best: int = 0
    latest: int = 0
    give_up: int = 0

    def look(self, window: Window) -> Window:
        """Move the window of a look."""
        if not (self.not_before or self.best or self.latest):
            return window
        return Window(
            days_after(window.not_before, self.not_before),
            days_after(window.best, self.best),
            days_after(window.by, self.latest),
        )


NO_SHIFT = Shift()


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
