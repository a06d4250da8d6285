"""A queen walked by herself in plain numbers walks as she does in the arrays of many."""

import subprocess
import sys
from unittest.mock import patch

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from scheduling.checks import prospects
from scheduling.entry_kinds import EntryKind
from scheduling.walk.alone import walk_alone
from scheduling.walk.case import Case, Sight
from scheduling.walk.dates import days
from scheduling.walk.days_alone import days_alone
from scheduling.walk.odds import USUAL, Odds
from scheduling.walk.walk import walk
from tests.scheduling.story import Story
from tests.scheduling.walk.queens import CELL, OUT, seen
from tests.scheduling.walk.test_walk_laws import FLYING, LOOK, STARTS

LOOKS = st.lists(LOOK, max_size=5).map(lambda looks: tuple(sorted(looks)))
QUEENS = st.builds(Case, STARTS, st.booleans(), FLYING, LOOKS)
ODDS = st.sampled_from([USUAL, Odds(best=0.95, latest=0.97), Odds(give_up=0.2)])
ROUNDING = 1e-12


@given(st.lists(QUEENS, min_size=1, max_size=4))
def test_her_chances_are_the_same_to_rounding(cases: list[Case]) -> None:
    many = walk(cases)
    for number, case in enumerate(cases):
        alone = walk_alone(case)
        assert alone.possible == many.possible[number]
        for row in ("emerged", "virgin", "eggs", "failed"):
            assert np.allclose(getattr(alone, row), getattr(many, row)[number], ROUNDING, ROUNDING)


@given(QUEENS, ODDS)
def test_her_days_are_the_same(case: Case, odds: Odds) -> None:
    assert [days_alone(walk_alone(case), case, odds)] == days(walk([case]), [case], odds)


def test_the_same_said_twice_of_one_day_tells_no_more_than_once() -> None:
    once = seen(OUT, (12, Sight.NO_EGGS))
    twice = seen(OUT, (12, Sight.NO_EGGS), (12, Sight.NO_EGGS))
    assert walk_alone(twice) == walk_alone(once)
    assert walk_alone(seen(CELL, (5, Sight.OUT))) != walk_alone(CELL)


STORY = Story().on(3, EntryKind.CELL_PLACED).on(8, EntryKind.EMERGED).on(19, EntryKind.NO_EGGS)


def test_a_calendar_says_the_same_whichever_way_its_queens_are_walked() -> None:
    with patch.object(prospects, "FEW", 0):
        together = STORY.calendar()
    assert STORY.calendar() == together


def test_a_crew_of_few_queens_loads_no_arrays() -> None:
    doing = """
import sys
from datetime import UTC, date, datetime
from scheduling.checks.calendar import work_out
from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName
placed = date(2027, 5, 3)
cell = Entry(
    "a", Place("river", UnitName(4, "a")), EntryKind.CELL_PLACED, None, placed,
    datetime(2027, 5, 3, 12, tzinfo=UTC), "ida",
)
assert work_out([cell]).chances
print("numpy" in sys.modules)
"""
    said = subprocess.run([sys.executable, "-c", doing], capture_output=True, text=True, check=True)
    assert said.stdout == "False\n"
