"""How sure a keeper wants to be before a unit is opened, or its queen given up."""

from dataclasses import dataclass

from scheduling.trade.window import Window, days_after


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
