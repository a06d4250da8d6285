"""Marking colours of queens by year.

Read: launcestonbeekeepers.org.uk, "Queen bee marking",
https://launcestonbeekeepers.org.uk/queen-bee-marking, and tbbk.co.uk, "Queen marking colours",
https://tbbk.co.uk/queen-marking-colours/
"""

import pytest

from scheduling.trade.marking import MarkColour, mark_colour


@pytest.mark.parametrize(
    ("year", "colour"),
    [
        (2011, MarkColour.WHITE),
        (2012, MarkColour.YELLOW),
        (2013, MarkColour.RED),
        (2014, MarkColour.GREEN),
        (2015, MarkColour.BLUE),
        (2020, MarkColour.BLUE),
        (2021, MarkColour.WHITE),
    ],
)
def test_the_colour_of_a_year(year: int, colour: MarkColour) -> None:
    assert mark_colour(year) is colour


def test_the_colours_come_round_every_five_years() -> None:
    assert [mark_colour(year) for year in range(2025, 2030)] == list(MarkColour)
    assert mark_colour(2027) is mark_colour(2032)
