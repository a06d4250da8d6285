"""The states between which a queen walks, and how likely each sight is in each of them."""

from collections.abc import Iterable
from enum import IntEnum

from scheduling.walk.case import Sight
from scheduling.walk.stages import Stages


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
