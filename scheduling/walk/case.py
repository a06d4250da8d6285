"""What the walk is told of one queen, and the states in which it may show her; no dates."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import IntEnum, StrEnum

from scheduling.walk.stages import PUBLISHED, Spread, Stages

LONGEST_EMERGENCE = 8
"""The most days over which an emergence may be spread."""

DAYS = LONGEST_EMERGENCE + PUBLISHED.mates_until + PUBLISHED.to_first_egg.last
"""Days that are walked: by then every queen lays or has failed."""

GOOD_WEATHER = (1.0,) * DAYS


class Sight(StrEnum):
    """What a look into the unit showed, as far as it narrows the walk."""

    SEALED = "sealed"
    OUT = "out"
    """The cell is open; she came out on that day or before it."""
    VIRGIN = "virgin"
    QUEEN = "queen"
    """A queen, without a word on eggs."""
    NO_QUEEN = "no_queen"
    """Looked for her and did not see her."""
    NO_EGGS = "no_eggs"
    EGGS = "eggs"
    DRONE_BROOD = "drone_brood"


@dataclass(frozen=True, slots=True)
class Case:
    """One queen. Day 0 is the first on which she may emerge, or did.

    Attributes:
        emergence: the chance of each day of emergence; its first is day 0.
        from_cell: she was placed as a cell, which may be a dud.
        flying: how much of a mating day each day is, from 0 to 1, one for each of ``DAYS``.
        seen: what was seen, with its day, in the order of the days.

    Raises:
        ValueError: emergence is spread too widely, the weather is not of ``DAYS`` days, or a
            sight lies outside them.

    """

    emergence: Spread
    from_cell: bool = True
    flying: tuple[float, ...] = GOOD_WEATHER
    seen: tuple[tuple[int, Sight], ...] = ()

    def __hash__(self) -> int:
        """Tell most cases apart by the weather of some days; to hash all takes longer."""
        return hash((self.from_cell, self.seen, self.flying[:LONGEST_EMERGENCE]))

    def __post_init__(self) -> None:
        if self.emergence.first != 0 or len(self.emergence.chances) > LONGEST_EMERGENCE:
            raise ValueError(f"emergence must be spread over days 0 to {LONGEST_EMERGENCE - 1}")
        if len(self.flying) != DAYS:
            raise ValueError(f"weather of {len(self.flying)} days, not of {DAYS}")
        if [day for day, _sight in self.seen if not 0 <= day < DAYS]:
            raise ValueError(f"she is walked on days 0 to {DAYS - 1} and seen on no other")


class State(IntEnum):
    """Where she stands at the end of a day."""

    SEALED = 0
    MATURING = 1
    WAITING = 2
    """Old enough to mate, and waiting for flying weather or for the day."""
    MATED = 3
    """Mated, and not laying yet."""
    LAYING = 4
    DUD = 5
    """No queen will come out of the cell."""
    LOST = 6
    """Dead in the unit or lost on a flight."""
    UNMATED = 7
    """There, but too old to mate well: she will lay drones or nothing."""


FAILED = (State.DUD, State.LOST, State.UNMATED)
IN_CELL = frozenset({State.SEALED, State.DUD})
NOT_LAYING = frozenset({State.MATURING, State.WAITING, State.MATED, State.UNMATED})
WITH_QUEEN = NOT_LAYING | {State.LAYING}


def likelihoods(sight: Sight, stages: Stages) -> tuple[float, ...]:
    """Give the chance of such a sight in each state, in the order of the states.

    A factor common to all states changes nothing and is left out: that a virgin was found, which
    is as hard in each state with a virgin in it.
    """
    chances = _CERTAIN[sight] | _missed(stages).get(sight, {})
    return tuple(chances.get(state, 0.0) for state in State)


def _in(states: Iterable[State], chance: float = 1.0) -> dict[State, float]:
    return dict.fromkeys(states, chance)


_CERTAIN = {
    Sight.SEALED: _in(IN_CELL),
    Sight.OUT: _in(set(State) - IN_CELL),
    Sight.VIRGIN: _in(NOT_LAYING),
    Sight.QUEEN: _in(WITH_QUEEN),
    Sight.NO_QUEEN: _in(set(State) - WITH_QUEEN),
    Sight.NO_EGGS: _in(set(State) - {State.LAYING}),
    Sight.EGGS: _in({State.LAYING}),
    Sight.DRONE_BROOD: _in({State.UNMATED}),
}
"""States in which the sight is what there is to see."""


def _missed(stages: Stages) -> dict[Sight, dict[State, float]]:
    """Give the states in which the sight means that something was missed."""
    return {
        Sight.NO_QUEEN: _in(WITH_QUEEN, stages.queen_missed),
        Sight.NO_EGGS: _in({State.LAYING}, stages.eggs_missed),
        Sight.VIRGIN: _in({State.LAYING}, stages.eggs_missed),
    }
