"""Bees enough to keep the brood warm, until the unit's own young bees come.

Common practice, no source: a unit with too few bees loses the whole frame of brood; one extra
shake of bees off open brood, because nurses stay; field bees that come along fly home. That bees
must cover all brood on both sides: from memory. The smallest colonies that reared brood in a trial
had 2,300 bees: abstract (Harbo 1986 from memory),
https://scilit.com/publications/fa4b86f0caa4181b1955ebf08a3cc64b.
"""

from datetime import date

import pytest

from scheduling.colony.account import Account, account_of
from scheduling.colony.bees_enough import (
    AnotherRound,
    another_round,
    bees_to_keep_warm,
    brood_by,
    low_point,
    shakes_short,
    too_few_from,
)
from scheduling.entry_kinds import EntryKind
from scheduling.trade import table
from scheduling.values import MakeUp
from tests.scheduling.story import Story, in_may, may

USUAL = MakeUp(brood_frames=0.67, sealed_share=0.75, bee_frames=2, nurse_shakes=1)
WEAK = MakeUp(brood_frames=1, sealed_share=0.75, bee_frames=1, nurse_shakes=0)


def account(made_up: MakeUp, eggs: int | None = None, story: Story | None = None) -> Account:
    told = (story or Story()).on(1, EntryKind.MADE_UP, made_up)
    found = account_of(told.entries, may(eggs) if eggs is not None else None)
    assert found is not None
    return found


def test_without_a_make_up_there_is_no_account() -> None:
    assert account_of(Story().on(1, EntryKind.EGGS).entries) is None


def test_a_frame_of_brood_wants_a_frame_of_bees_and_a_unit_its_least() -> None:
    two_frames = 2 * 2 * table.BROOD_IN_COMB.value * 3188
    assert bees_to_keep_warm(two_frames) == pytest.approx(3800, rel=0.01)
    assert bees_to_keep_warm(two_frames / 4) == table.LEAST_BEES.value < 2300


def test_a_usual_unit_keeps_its_brood_warm() -> None:
    assert shakes_short(account(USUAL)) == 0


def test_a_frame_of_bees_alone_loses_a_frame_of_brood() -> None:
    """1,900 bees less a quarter that fly home leave about 1,400: one shake brings 2,400."""
    assert shakes_short(account(WEAK)) == 1
    assert shakes_short(account(MakeUp(2, 0.75, 1, 0))) == 3


def test_bees_shaken_in_on_the_day_make_it_good() -> None:
    story = Story().on(1, EntryKind.MADE_UP, WEAK).on(1, EntryKind.BEES_ADDED)
    found = account_of(story.entries)
    assert found is not None
    assert shakes_short(found) == 0


def lowest(made_up: MakeUp, eggs: int) -> tuple[int, float]:
    low = low_point(account(made_up, eggs), may(eggs))
    return in_may(low.on), low.bees


def test_a_usual_unit_is_lowest_when_its_first_own_bees_come() -> None:
    """Eggs on day 14 after make-up, bees on day 35."""
    day, bees = lowest(USUAL, eggs=15)
    assert 34 <= day - 1 <= 36
    assert bees > table.LEAST_BEES.value
    assert too_few_from(account(USUAL, 15), may(15)) is None


def test_the_later_she_lays_the_lower_it_goes() -> None:
    assert lowest(USUAL, 30)[1] < lowest(USUAL, 22)[1] < lowest(USUAL, 15)[1]


def test_sealed_brood_is_given_a_dozen_days_before_the_bees_are_too_few() -> None:
    found = account(USUAL, 30)
    too_few = too_few_from(found, may(30))
    assert too_few is not None
    assert found.bees(too_few) < table.LEAST_BEES.value <= found.bees(before(too_few))
    assert (too_few - brood_by(too_few)).days == 12


def before(day: date) -> date:
    return may(in_may(day) - 1)


def test_without_a_queen_the_bees_only_get_fewer() -> None:
    found = account(USUAL)
    assert low_point(found).on == found.last


ROUNDS = [
    (3, AnotherRound.CELL),
    (14, AnotherRound.CELL_AND_BROOD),
    (50, AnotherRound.COMBINE),
]


@pytest.mark.parametrize(("cell_on", "verdict"), ROUNDS)
def test_a_unit_is_worth_another_cell_while_its_bees_will_last(
    cell_on: int, verdict: AnotherRound
) -> None:
    assert another_round(account(USUAL), may(cell_on)) is verdict


def test_beyond_the_account_nothing_is_judged() -> None:
    assert another_round(account(USUAL), may(200)) is None


def test_a_second_make_up_begins_the_account_anew() -> None:
    story = Story().on(1, EntryKind.MADE_UP, WEAK).on(20, EntryKind.MADE_UP, USUAL)
    found = account_of(story.entries)
    assert found is not None
    assert found.made_up_on == may(20)


def test_the_brood_of_a_queen_that_was_taken_still_comes_out() -> None:
    story = Story().on(1, EntryKind.MADE_UP, USUAL).on(15, EntryKind.EGGS)
    taken = account_of(story.on(30, EntryKind.QUEEN_TAKEN).entries)
    assert taken is not None
    assert [(span.first, span.last) for span in taken.layings] == [(14, 29)]
    assert taken.projection.brood[49] > 0
    assert taken.projection.brood[50] == pytest.approx(0, abs=1e-6)
    assert taken.bees(may(50)) > account(USUAL).bees(may(50))


def test_sealed_brood_tells_of_eggs_nine_days_before() -> None:
    story = Story().on(1, EntryKind.MADE_UP, USUAL).on(24, EntryKind.SEALED_BROOD)
    found = account_of(story.entries)
    assert found is not None
    assert found.layings[0].first == 14
