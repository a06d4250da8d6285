"""The days of the walk that come out of the chances: when to look, and when to give up."""

from dataclasses import dataclass

from scheduling.quickly_made import quickly_made

NEAREST = 0.005
"""A chance is held against the odds to the nearest percent; no figure is known any closer."""

CERTAIN = 1e-9
"""What is left of a chance that has been rounded away."""


@quickly_made
@dataclass(frozen=True, slots=True)
class Days:
    """Days of the walk of one queen; one that never comes stands as the last day walked."""

    not_before: int
    best: int
    latest: int
    give_up: int
