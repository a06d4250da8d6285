"""What holds for every walk, whatever the weather and whatever was seen."""

from dataclasses import replace

import numpy as np
from hypothesis import assume, given
from hypothesis import strategies as st

from scheduling.walk.case import DAYS, Case, Sight, State, likelihoods
from scheduling.walk.model import walk
from scheduling.walk.stages import EMERGENCE, OWN_EMERGENCE, PUBLISHED, certain
from tests.scheduling.walk.queens import CELL, OUT, seen

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
    walked = walk(case)
    assume(walked.possible)
    for row in (walked.emerged, walked.virgin, walked.eggs, walked.failed):
        assert -1e-12 <= min(row) <= max(row) <= 1 + 1e-9
    for in_one_stage in zip(walked.virgin, walked.eggs, walked.failed, strict=True):
        assert sum(in_one_stage) <= 1 + 1e-9


@given(UNSEEN)
def test_unless_something_is_seen_she_only_goes_forward(case: Case) -> None:
    walked = walk(case)
    for row in (walked.emerged, walked.eggs, walked.failed):
        assert (np.diff(row) >= -1e-12).all()


@given(UNSEEN, st.integers(0, DAYS - 1))
def test_a_better_day_never_makes_eggs_later(case: Case, day: int) -> None:
    better = replace(case, flying=(*case.flying[:day], 1.0, *case.flying[day + 1 :]))
    before, after = np.array(walk(case).eggs), np.array(walk(better).eggs)
    assert (after >= before - 1e-12).all()


@given(UNSEEN, st.integers(12, DAYS - 1))
def test_eggs_seen_make_eggs_certain(case: Case, day: int) -> None:
    walked = walk(replace(case, seen=((day, Sight.EGGS),)))
    assume(walked.possible)
    assert np.allclose(walked.eggs[day:], 1)


@given(SEEN)
def test_a_look_without_eggs_never_raises_the_chance_that_she_lays_already(case: Case) -> None:
    day = case.seen[-1][0] if case.seen else 12
    looked = replace(case, seen=(*case.seen, (day, Sight.NO_EGGS)))
    before, after = walk(case), walk(looked)
    assume(before.possible and after.possible)
    assert after.eggs[day] <= before.eggs[day] + 1e-9


@given(UNSEEN)
def test_everything_is_decided_at_the_end(case: Case) -> None:
    walked = walk(case)
    assert np.isclose(walked.eggs[-1] + walked.failed[-1], 1)


def test_the_same_said_twice_of_one_day_tells_no_more_than_once() -> None:
    once = seen(OUT, (12, Sight.NO_EGGS))
    twice = seen(OUT, (12, Sight.NO_EGGS), (12, Sight.NO_EGGS))
    assert walk(twice) == walk(once)
    assert walk(seen(CELL, (5, Sight.OUT))) != walk(CELL)


@given(st.sampled_from(Sight))
def test_no_look_tells_a_queen_who_matures_from_one_who_waits(sight: Sight) -> None:
    likelihood = likelihoods(sight, PUBLISHED)
    assert likelihood[State.MATURING] == likelihood[State.WAITING]
