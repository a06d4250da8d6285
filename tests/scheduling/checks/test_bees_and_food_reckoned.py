"""What is due for a unit's bees and food, reckoned from its make-up and stores.

Common practice, no source: feed before a unit falls under half a deep frame and stop at one; a
unit with too few bees loses its brood; about two thirds of a frame of sealed brood, two frames of
bees and a shake of nurses are the usual make-up.
"""

import pytest

from scheduling.check_kinds import CheckKind
from scheduling.checks.calendar import work_out
from scheduling.checks.check import Cause, expired
from scheduling.colony.stores import Dose
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place
from scheduling.values import Feed, Forage, MakeUp, Stores, YardForage
from tests.scheduling.story import YARD, Story, may, unit

WEAK = MakeUp(brood_frames=1, bee_frames=1, nurse_shakes=0)
USUAL = MakeUp(brood_frames=0.67, sealed_share=0.75, bee_frames=2, nurse_shakes=1, food_frames=1)


def forage(story: Story, day: int, word: Forage) -> Story:
    return story.on(day, EntryKind.FORAGE_SEEN, YardForage(word), at=Place(YARD))


def fed_up() -> Story:
    """A unit that needs no rest, with three quarters of a frame of food on the fifth."""
    return Story().on(1, EntryKind.EGGS).on(5, EntryKind.STORES, Stores(0.75))


def test_a_unit_is_fed_the_day_before_its_stores_are_too_low() -> None:
    """A quarter of a frame, 675 g, is eaten in 8 to 9 days at 79 g a day."""
    assert fed_up().days(CheckKind.FEED) == (6, 13, 14)
    why = fed_up().check(CheckKind.FEED).why
    assert (why.cause, why.about) == (Cause.FOOD_RUNS_LOW, may(14))


def dose_in(feeder_litres: float) -> Dose:
    calendar = work_out(fed_up().entries, feeder_litres=feeder_litres)
    (dose,) = [check.why.dose for check in calendar.checks[unit()] if check.why.dose is not None]
    return dose


def test_it_is_given_what_brings_it_to_a_frame_in_the_keepers_own_feeders() -> None:
    jars, pails = dose_in(0.946), dose_in(1.9)
    assert (jars.feeders, pails.feeders) == (1, None)
    assert 1 < pails.litres < 1.9


def test_fed_by_measure_it_is_next_fed_later() -> None:
    fed = fed_up().on(6, EntryKind.FED, Feed(0.946, "1:1"))
    assert fed.check(CheckKind.FEED).best == may(20)


def test_in_a_flow_it_is_not_fed() -> None:
    flow = forage(fed_up(), 6, Forage.FLOW)
    assert flow.check(CheckKind.FEED).why.cause is Cause.FOOD_LOOK


def test_in_a_dearth_robbers_are_warned_of() -> None:
    assert forage(fed_up(), 6, Forage.DEARTH).check(CheckKind.FEED).why.dearth
    assert not fed_up().check(CheckKind.FEED).why.dearth


def test_a_word_on_the_forage_of_another_yard_changes_nothing() -> None:
    story = fed_up()
    story.on(6, EntryKind.FORAGE_SEEN, YardForage(Forage.FLOW), at=Place("hill"))
    assert story.check(CheckKind.FEED) == fed_up().check(CheckKind.FEED)


def test_too_few_bees_are_made_good_on_the_day_of_make_up() -> None:
    story = Story().on(1, EntryKind.MADE_UP, WEAK).on(1, EntryKind.CELL_PLACED)
    assert story.days(CheckKind.BOOST) == (1, 1, 2)
    why = story.check(CheckKind.BOOST).why
    assert (why.cause, why.shakes) == (Cause.FEW_BEES, 1)
    assert CheckKind.BOOST not in story.on(1, EntryKind.BEES_ADDED).kinds()


def test_after_some_days_they_come_too_late() -> None:
    check = Story().on(1, EntryKind.MADE_UP, WEAK).check(CheckKind.BOOST)
    assert not expired(check, may(4))
    assert expired(check, may(5))


def test_a_usual_unit_wants_no_bees() -> None:
    story = Story().on(1, EntryKind.MADE_UP, USUAL).on(1, EntryKind.CELL_PLACED)
    assert CheckKind.BOOST not in story.kinds()


@pytest.mark.parametrize("told", [None, MakeUp(food_frames=1)])
def test_where_no_bees_and_no_brood_were_told_none_are_reckoned(told: MakeUp | None) -> None:
    story = Story().on(1, EntryKind.MADE_UP, told).on(14, EntryKind.CELL_PLACED)
    assert CheckKind.BOOST not in story.kinds()


def second_cell() -> Story:
    """The first cell failed, and the next goes in two weeks after make-up."""
    return Story().on(1, EntryKind.MADE_UP, USUAL).on(15, EntryKind.CELL_PLACED)


def test_a_second_round_wants_brood_before_its_bees_are_too_few() -> None:
    check = second_cell().check(CheckKind.BOOST)
    assert check.why.cause is Cause.BEES_RUN_SHORT
    assert check.by == check.why.about
    assert check.why.about is not None
    assert may(30) < check.why.about < may(50)


def test_brood_given_carries_it_over() -> None:
    given = second_cell().on(24, EntryKind.BROOD_ADDED)
    assert CheckKind.BOOST not in given.kinds()


def test_a_unit_gone_too_weak_is_combined() -> None:
    story = second_cell().on(45, EntryKind.QUEEN_DEAD)
    assert story.check(CheckKind.RECELL).why.cause is Cause.TOO_WEAK
