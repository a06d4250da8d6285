"""The states between which a queen walks."""

from enum import IntEnum


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
