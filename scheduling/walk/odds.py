"""How sure a keeper wants to be before a unit is opened, or its queen given up."""

from dataclasses import dataclass


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
