"""A unit's bees and brood projected from make-up, held against sums done by hand.

Stages of worker brood, egg 3 days, larva 6, sealed 12: Wade, ACT Beekeepers,
https://actbeekeepers.asn.au/bee-buzz-box-september-2022-honey-bee-colony-dynamics-part-i-brood-nest-signatures/.
Summer life 3 to 6 weeks: Agroscope,
https://www.agroscope.admin.ch/agroscope/en/home/topics/livestock/bees/biologie/lebensdauer.html.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduling.colony.account import Projection, project
from scheduling.colony.unit_make_up import (
    Added,
    Laying,
    Stock,
    brood_cells,
    brood_frame,
    cells_per_side,
    shake,
    stocked,
)
from scheduling.trade import table
from scheduling.values import MakeUp

amounts = st.floats(0, 20_000)
stocks = st.builds(Stock, amounts, amounts, amounts, amounts)
layings = st.lists(
    st.builds(Laying, st.integers(0, 60), st.none() | st.integers(0, 60)), max_size=3
).map(tuple)
added = st.lists(st.builds(Added, st.integers(0, 70), stocks), max_size=3).map(tuple)


def test_a_side_of_comb_has_the_cells_of_the_inspection_figures() -> None:
    """Ten deep frames 2,700 square inches and 23.6 cells to the square inch: California
    pollination-colony inspection, as quoted in
    https://htfbw.com/science-nature/Insects---Science/55756.shtml
    """
    assert cells_per_side() == pytest.approx(23.6 * 2700 / 20, rel=0.002)


def test_a_frame_of_bees_is_a_layer_as_the_swiss_count_it() -> None:
    """130 bees to the square decimetre of a side: imker.felser.ch, citing Agroscope,
    https://imker.felser.ch/imkerwiki/doku.php?do=export_xhtml&id=volksstaerke_beurteilen.
    A single layer, as used here, is a fifth less than that.
    """
    swiss = 130 * 2 * table.DEEP_SIDE.value
    assert table.BEES_PER_FRAME.low < swiss < table.BEES_PER_FRAME.high
    assert table.BEES_PER_FRAME.value == pytest.approx(swiss, rel=0.2)


def test_without_brood_the_bees_of_a_unit_halve_in_about_three_weeks() -> None:
    """4,000 x (1 - 1/35)^21 = 2,176."""
    projected = project(Stock(nurses=4000))
    assert projected.bees[21] == pytest.approx(2176, abs=0.5)
    assert projected.brood[21] == 0


def test_two_sides_of_sealed_brood_carry_a_unit_to_its_own_bees() -> None:
    """3,000 bees after the field bees have gone, two sides of sealed brood (4,460 cells, 3,790
    bees in 12 days), eggs on day 12: it only loses bees until day 33, when its own come.
    """
    projected = project(Stock(nurses=3000, sealed_cells=brood_cells(1)), (Laying(12),))
    assert brood_cells(1) == pytest.approx(4460, abs=5)
    assert projected.brood[12] == pytest.approx(table.EGGS_FIRST_WEEK.value)
    assert max(projected.bees) == projected.bees[12]
    assert projected.bees[32] == pytest.approx(projected.bees[12] * (34 / 35) ** 20)
    fewest = min(projected.bees[1:50])
    assert next(d for d in range(50) if d and projected.bees[d] <= fewest * 1.001) in range(33, 37)


def test_open_brood_comes_out_after_the_sealed() -> None:
    projected = project(Stock(open_cells=900))
    assert projected.bees[12] == 0
    assert projected.brood[0] == projected.brood[12] == pytest.approx(900)
    assert projected.brood[13] == pytest.approx(800)
    assert projected.bees[13] == pytest.approx(85)
    assert projected.brood[20] == pytest.approx(100)
    assert projected.brood[21] == pytest.approx(0, abs=1e-9)


def test_eggs_are_bees_three_weeks_later() -> None:
    projected = project(Stock(nurses=4000), (Laying(5, 5),))
    assert projected.brood[5] == table.EGGS_FIRST_WEEK.value
    alone = project(Stock(nurses=4000))
    assert projected.bees[25] == alone.bees[25]
    assert projected.bees[26] - alone.bees[26] == pytest.approx(85)


def test_field_bees_fly_home_and_shaken_nurses_stay() -> None:
    of_combs, shaken = project(Stock(bees=4000)), project(Stock(nurses=4000))
    assert of_combs.bees[1] == pytest.approx(shaken.bees[1] * (1 - table.FIELD_BEES.value))


def test_a_queen_lays_no_more_than_few_bees_can_nurse() -> None:
    projected = project(Stock(nurses=500), (Laying(0),))
    assert all(projected.brood[day] <= 500 for day in range(21))


def test_bees_added_later_are_not_there_before() -> None:
    projected = project(Stock(nurses=3000), (), (Added(10, shake()), Added(15, brood_frame())))
    plain = project(Stock(nurses=3000))
    assert projected.bees[:10] == plain.bees[:10]
    assert projected.bees[10] - plain.bees[10] == pytest.approx(table.BEES_PER_SHAKE.value)
    assert projected.brood[14] == 0
    assert projected.brood[15] == pytest.approx(brood_cells(table.USUAL_BROOD.value))


def test_what_was_not_told_is_taken_as_usual() -> None:
    stock = stocked(MakeUp(brood_frames=1, bee_frames=2))
    assert stock.bees == 2 * table.BEES_PER_FRAME.value
    assert stock.nurses == table.BEES_PER_SHAKE.value
    assert stock.sealed_cells == pytest.approx(brood_cells(1) * table.USUAL_SEALED.value)
    usual = (table.USUAL_BROOD, table.USUAL_SEALED, table.USUAL_BEES, table.USUAL_SHAKES)
    assert stocked(MakeUp()) == stocked(MakeUp(*(figure.value for figure in usual)))


def test_a_unit_told_to_have_no_brood_has_none() -> None:
    stock = stocked(MakeUp(brood_frames=0))
    assert stock.open_cells == stock.sealed_cells == 0


def in_bounds(projected: Projection) -> bool:
    return all(n >= -1e-6 for n in (*projected.bees, *projected.brood))


@given(stocks, layings, added)
def test_bees_and_brood_are_never_negative(
    stock: Stock, spans: tuple[Laying, ...], given_later: tuple[Added, ...]
) -> None:
    assert in_bounds(project(stock, spans, given_later))


@given(stocks, layings, added, st.integers(0, 60))
def test_more_nurse_bees_never_make_fewer(
    stock: Stock, spans: tuple[Laying, ...], given_later: tuple[Added, ...], day: int
) -> None:
    few = project(stock, spans, given_later)
    many = project(stock, spans, (*given_later, Added(day, shake())))
    assert all(a <= b + 1e-6 for a, b in zip(few.bees, many.bees, strict=True))


@given(stocks, layings, added)
def test_each_bee_came_from_the_stock_or_from_brood(
    stock: Stock, spans: tuple[Laying, ...], given_later: tuple[Added, ...]
) -> None:
    projected = project(stock, spans, given_later)
    laid = (len(projected.bees)) * table.EGGS_AFTER.value * bool(spans)
    put_in = [stock, *(each.stock for each in given_later)]
    most = sum(s.bees + s.nurses + s.open_cells + s.sealed_cells for s in put_in) + laid
    assert max(projected.bees) <= most + 1e-6
