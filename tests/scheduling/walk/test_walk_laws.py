"""What holds for every walk, whatever the weather and whatever was seen."""

from dataclasses import replace

import numpy as np
from hypothesis import assume, given
from hypothesis import strategies as st

from scheduling.walk.case import DAYS, Case, Sight
from scheduling.walk.spread import certain
from scheduling.walk.stages import EMERGENCE, OWN_EMERGENCE
from scheduling.walk.walk import walk

SHARES = st.sampled_from([0.0, 0.25, 0.5, 1.0])
FLYING = st.lists(SHARES, min_size=DAYS, max_size=DAYS).map(tuple)
STARTS = st.sampled_from(
    [(spread.moved(-spread.first)) for spread in (EMERGENCE, OWN_EMERGENCE, certain(0))]
)
LOOK = st.tuples(st.integers(0, DAYS - 1), st.sampled_from(Sight))
LOOKS = st.lists(LOOK, max_size=4, unique_by=lambda look: look[0]).map(lambda s: tuple(sorted(s)))
UNSEEN = st.builds(Case, STARTS, st.booleans(), FLYING)
SEEN = st.builds(Case, STARTS, st.booleans(), FLYING, LOOKS)


@given(SEEN)
def test_chances_are_chances_and_sum_to_one(case: Case) -> None:
    walked = walk([case])
    assume(walked.possible[0])
    for row in (walked.emerged, walked.virgin, walked.eggs, walked.failed):
        assert (row >= -1e-12).all()
        assert (row <= 1 + 1e-9).all()
    alive_and_in_one_stage = walked.virgin + walked.eggs
    assert (alive_and_in_one_stage + walked.failed <= 1 + 1e-9).all()


@given(UNSEEN)
def test_unless_something_is_seen_she_only_goes_forward(case: Case) -> None:
    walked = walk([case])
    for row in (walked.emerged, walked.eggs, walked.failed):
        assert (np.diff(row) >= -1e-12).all()


@given(UNSEEN, st.integers(0, DAYS - 1))
def test_a_better_day_never_makes_eggs_later(case: Case, day: int) -> None:
    better = replace(case, flying=(*case.flying[:day], 1.0, *case.flying[day + 1 :]))
    before, after = walk([case, better]).eggs
    assert (after >= before - 1e-12).all()


@given(UNSEEN, st.integers(12, DAYS - 1))
def test_eggs_seen_make_eggs_certain(case: Case, day: int) -> None:
    walked = walk([replace(case, seen=((day, Sight.EGGS),))])
    assume(walked.possible[0])
    assert np.allclose(walked.eggs[0, day:], 1)


@given(SEEN)
def test_a_look_without_eggs_never_raises_the_chance_that_she_lays_already(case: Case) -> None:
    day = case.seen[-1][0] if case.seen else 12
    looked = replace(case, seen=(*case.seen, (day, Sight.NO_EGGS)))
    walked = walk([case, looked])
    assume(walked.possible.all())
    assert walked.eggs[1, day] <= walked.eggs[0, day] + 1e-9


@given(st.lists(SEEN, min_size=1, max_size=5))
def test_queens_walked_together_walk_as_they_would_alone(cases: list[Case]) -> None:
    together = walk(cases)
    for number, case in enumerate(cases):
        alone = walk([case])
        assert np.allclose(together.eggs[number], alone.eggs[0])
        assert np.allclose(together.failed[number], alone.failed[0])


@given(UNSEEN)
def test_everything_is_decided_at_the_end(case: Case) -> None:
    walked = walk([case])
    assert np.isclose(walked.eggs[0, -1] + walked.failed[0, -1], 1)
