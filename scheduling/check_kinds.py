"""The kinds of check."""

from enum import StrEnum


class CheckKind(StrEnum):
    """The closed set of things that can be due."""

    CELLS_RIPE = "cells_ripe"
    EMERGENCE = "emergence"
    RELEASE = "release"
    REST = "rest"
    LAYING = "laying"
    SEALED_BROOD = "sealed_brood"
    GIVE_UP = "give_up"
    FEED = "feed"
    TRAP = "trap"
    RECELL = "recell"
    BOOST = "boost"
    TAKE = "take"
    MOVE_UP = "move_up"
