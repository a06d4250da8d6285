"""The colour in which a queen is marked, by the year she was reared."""

from enum import StrEnum

from scheduling.trade.sources import MARKING_CLUB

SOURCE = MARKING_CLUB


class MarkColour(StrEnum):
    """The five colours, which come round every five years."""

    BLUE = "blue"
    WHITE = "white"
    YELLOW = "yellow"
    RED = "red"
    GREEN = "green"


_BY_LAST_DIGIT = tuple(MarkColour)


def mark_colour(year: int) -> MarkColour:
    """Give the colour of queens reared in ``year``: blue where it ends in 0 or 5, then onwards."""
    return _BY_LAST_DIGIT[year % len(_BY_LAST_DIGIT)]
