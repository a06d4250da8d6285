"""What is ahead of a unit's bees, in one line of its story."""

from datetime import date

from bot.wording.days import day_words
from scheduling.checks.bees_ahead import BeesAhead
from scheduling.colony.another_round import AnotherRound
from scheduling.colony.strength import LowPoint

_ROUND = {
    AnotherRound.CELL: "worth another cell",
    AnotherRound.CELL_AND_BROOD: "worth another cell with a frame of brood",
    AnotherRound.COMBINE: "not worth another round, combine",
}

_NEAREST = 50
"""Bees are told to so many: they are known no closer."""


def bees_words(ahead: BeesAhead | None, today: date) -> str:
    """Say ``fewest about 900 Fri 4 Jun, too few from Wed, give brood by today``; nothing for None.

    A low point that is past is not told.
    """
    if ahead is None:
        return ""
    said = [_fewest(ahead.low, today), _brood(ahead, today), _workers(ahead, today)]
    if ahead.another_round is not None:
        said.append(_ROUND[ahead.another_round])
    return ", ".join(part for part in said if part)


def _fewest(low: LowPoint | None, today: date) -> str:
    if low is None or low.on < today:
        return ""
    return f"fewest about {round(low.bees / _NEAREST) * _NEAREST} {day_words(low.on, today)}"


def _brood(ahead: BeesAhead, today: date) -> str:
    if ahead.too_few_from is None or ahead.brood_by is None:
        return ""
    since = "since" if ahead.too_few_from < today else "from"
    few = f"too few {since} {day_words(ahead.too_few_from, today)}"
    return f"{few}, give brood by {day_words(max(ahead.brood_by, today), today)}"


def _workers(ahead: BeesAhead, today: date) -> str:
    likely = ahead.laying_workers_from
    if likely is None:
        return ""
    since = "since" if likely < today else "from"
    return f"laying workers likely {since} {day_words(likely, today)}"
