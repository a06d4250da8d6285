"""A unit's stores from when they were seen, and how much syrup brings them where they should be.

Common practice, no source: feed before a unit falls under half a deep frame, stop at one; feeders
are one-quart jars. Not to feed in a flow, and that a colony without stores or nectar starves
within days: Somerville 2014, NSW DPI Primefact 1343,
https://info.5y1.org/is-cane-sugar-bad-for-you_1_971bed.html.
"""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduling.colony.account import account_of
from scheduling.colony.food_reserve import (
    FoodReserve,
    FoodSeen,
    ForageWords,
    food_reserve,
    food_seen,
    forage_words,
)
from scheduling.colony.stores import (
    LEAST_KILOGRAMS,
    MOST_KILOGRAMS,
    Dose,
    dose_for,
    kilograms,
    stores_of_syrup,
    stores_of_usual_syrup,
)
from scheduling.entry_kinds import EntryKind
from scheduling.values import Feed, Forage, MakeUp, Stores, YardForage
from tests.scheduling.story import Story, may

QUART = 0.946


def reserve(story: Story) -> FoodReserve:
    return reserve_kept_in(story, frozenset())


def reserve_kept_in(story: Story, kept_in: frozenset[date]) -> FoodReserve:
    told = food_seen(story.entries)
    assert told is not None
    return food_reserve(told, account_of(story.entries), forage_words(story.entries), kept_in)


def seen(frames: float) -> Story:
    return Story().on(1, EntryKind.STORES, Stores(frames))


def test_stores_not_seen_are_not_reckoned() -> None:
    assert food_seen(Story().on(1, EntryKind.FED, Feed(1)).entries) is None


@pytest.mark.parametrize("feed", [None, Feed(1, "thick")])
def test_nor_are_they_once_food_was_given_by_no_measure(feed: Feed | None) -> None:
    assert food_seen(seen(1).on(2, EntryKind.FED, feed).entries) is None


def test_nor_after_robbers_were_in() -> None:
    assert food_seen(seen(1).on(2, EntryKind.ROBBED).entries) is None


def test_half_a_frame_over_the_least_lasts_a_usual_unit_two_to_three_weeks() -> None:
    """1 kg is two to three weeks for 4,000 to 6,000 bees without brood (reckoned from 11 mg of
    sugar a bee and day: Huang, https://bees.msu.edu/feeding-honey-bees/); here 1.35 kg, with brood.
    """
    low = reserve(seen(1)).under(LEAST_KILOGRAMS, may(1))
    assert low is not None
    assert 14 <= (low - may(1)).days <= 21


def test_food_told_at_make_up_is_eaten_by_the_bees_told_at_make_up() -> None:
    few = Story().on(1, EntryKind.MADE_UP, MakeUp(0, None, 1, 0, food_frames=1))
    many = Story().on(1, EntryKind.MADE_UP, MakeUp(2, 0.75, 4, 2, food_frames=1))
    assert reserve(few).stores(may(10)) > reserve(many).stores(may(10))


def test_what_was_fed_is_there_from_that_day() -> None:
    plain, fed = reserve(seen(1)), reserve(seen(1).on(4, EntryKind.FED, Feed(1, "2:1")))
    assert fed.stores(may(3)) == plain.stores(may(3))
    added = fed.stores(may(4)) - plain.stores(may(4))
    assert added == pytest.approx(stores_of_syrup(1, "2:1"))


def test_in_a_flow_stores_neither_fall_nor_rise() -> None:
    flow = reserve(seen(1).on(3, EntryKind.FORAGE_SEEN, YardForage(Forage.FLOW)))
    assert flow.stores(may(3)) == flow.stores(may(16)) > flow.stores(may(17))


def test_a_dearth_ends_a_flow() -> None:
    story = seen(1).on(3, EntryKind.FORAGE_SEEN, YardForage(Forage.FLOW))
    story.on(6, EntryKind.FORAGE_SEEN, YardForage(Forage.DEARTH))
    words = forage_words(story.entries)
    assert [words.on(may(day)) for day in (2, 3, 5, 6, 20)] == [
        None, Forage.FLOW, Forage.FLOW, Forage.DEARTH, None,
    ]  # fmt: skip


def test_days_indoors_cost_more() -> None:
    cold = reserve_kept_in(seen(1), frozenset(may(day) for day in range(2, 9)))
    assert cold.stores(may(9)) < reserve(seen(1)).stores(may(9))


def test_at_the_least_two_quarts_fill_a_unit_without_overfilling_it() -> None:
    """Half a deep frame is missing, and a quart of 1:1 makes a quarter of one."""
    dose = dose_for(LEAST_KILOGRAMS)
    assert dose is not None
    assert dose.feeders == 2
    assert dose.least_litres == 0


def test_a_starving_unit_gets_four() -> None:
    dose = dose_for(0)
    assert dose is not None
    assert dose.feeders == 4


def test_where_no_whole_feeder_fits_litres_are_told() -> None:
    dose = Dose(0, 1.9, feeder_litres=10)
    assert dose.feeders is None
    assert dose.litres == 1.9


def test_a_full_unit_gets_nothing() -> None:
    assert dose_for(MOST_KILOGRAMS) is None


@given(st.floats(0, 2.69), st.floats(0.2, 12))
def test_what_is_given_lands_between_the_least_and_the_most(
    stores: float, feeder_litres: float
) -> None:
    dose = dose_for(stores)
    assert dose is not None
    given_litres = Dose(dose.least_litres, dose.most_litres, dose.ratio, feeder_litres).litres
    after = stores + stores_of_usual_syrup(given_litres)
    assert LEAST_KILOGRAMS - 1e-6 <= after <= MOST_KILOGRAMS + 1e-6


days = st.integers(0, 60).map(lambda number: may(1 + number))
fed = st.lists(st.tuples(days, st.floats(0, 5)), max_size=4).map(tuple)
words = st.lists(st.tuples(days, st.sampled_from(Forage)), max_size=3).map(
    lambda said: ForageWords(tuple(sorted(said)))
)


@given(st.floats(0, 10), fed, words, st.frozensets(days), days, st.floats(0, 5))
def test_feeding_never_lowers_stores_and_they_are_never_negative(
    frames: float,
    feeds: tuple[tuple[date, float], ...],
    forage: ForageWords,
    kept_in: frozenset[date],
    on: date,
    more: float,
) -> None:
    told = FoodSeen(may(1), kilograms(frames), feeds)
    fuller = FoodSeen(may(1), kilograms(frames), (*feeds, (on, more)))
    before = food_reserve(told, None, forage, kept_in).kilograms
    after = food_reserve(fuller, None, forage, kept_in).kilograms
    assert all(0 <= a <= b + 1e-9 for a, b in zip(before, after, strict=True))
