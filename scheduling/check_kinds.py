"""The kinds of check, and what is true of each."""

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum, StrEnum, auto


class CheckKind(StrEnum):
    """The closed set of things that can be due; on one day they are listed in this order."""

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


class Work(Enum):
    """What is done at a check."""

    QUEEN = auto()
    """A look at the queen or her cell, or something done about her."""
    COLONY = auto()
    """Bees or brood given; no look at the queen."""
    UPKEEP = auto()
    """Food and traps: no look at the queen, told last, held back while the unit rests."""
    REST = auto()
    """Nothing: the unit is left alone. It is never put off."""


@dataclass(frozen=True)
class CheckFacts:
    """What is true of every check of a kind; the words for it stand in the bot's wording.

    Attributes:
        work: what is done.
        repair: it puts right a unit that goes wrong.
        lapses: it is of no use after its last day; others stay due until they are answered.
    """

    work: Work = Work.QUEEN
    repair: bool = False
    lapses: bool = False


CHECK_FACTS: dict[CheckKind, CheckFacts] = {
    CheckKind.GIVE_UP: CheckFacts(repair=True),
    CheckKind.RELEASE: CheckFacts(),
    CheckKind.EMERGENCE: CheckFacts(lapses=True),
    CheckKind.CELLS_RIPE: CheckFacts(),
    CheckKind.LAYING: CheckFacts(),
    CheckKind.SEALED_BROOD: CheckFacts(),
    CheckKind.RECELL: CheckFacts(repair=True),
    CheckKind.BOOST: CheckFacts(Work.COLONY, repair=True),
    CheckKind.MOVE_UP: CheckFacts(),
    CheckKind.TAKE: CheckFacts(),
    CheckKind.REST: CheckFacts(Work.REST),
    CheckKind.FEED: CheckFacts(Work.UPKEEP),
    CheckKind.TRAP: CheckFacts(Work.UPKEEP),
}
"""The facts of each kind, in the order in which a keeper is told of one day's checks."""


def check_kinds(fit: Callable[[CheckFacts], bool]) -> frozenset[CheckKind]:
    """Give the kinds whose facts fit."""
    return frozenset(kind for kind, facts in CHECK_FACTS.items() if fit(facts))


ABOUT_THE_QUEEN = check_kinds(lambda facts: facts.work in (Work.QUEEN, Work.COLONY))
"""What another queen, or the loss of one, answers: a boost is for the queen that comes, too."""
UPKEEP = check_kinds(lambda facts: facts.work is Work.UPKEEP)
