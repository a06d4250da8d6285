"""Frames of honey, sugar and syrup as kilograms of stores, against what others publish.

6 lb in a deep frame: kingbee.us, "Frame building", https://kingbee.us/apiary/the-hive/frame-building;
7 lb: http://waldeneffect.org/blog/Double_deep__44___double_weight; 6 to 8 lb:
https://biologyinsights.com/how-many-pounds-of-honey-in-a-deep-frame. Sugar to stores 1.25: British
Beekeepers Association, https://www.bbka.org.uk/blog/august-in-the-apiary. A US gallon of 2:1 adds
about 7 lb: https://dayswellspent.com/feeding-bees-recipes-for-every-season/.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduling.colony.stores import (
    deep_frames,
    eaten,
    kilograms,
    stores_of,
    stores_of_syrup,
    stores_of_usual_syrup,
)
from scheduling.trade import table
from scheduling.values import Feed

POUND = 0.45359237
US_GALLON = 3.785411784
US_QUART = US_GALLON / 4


def test_a_full_deep_frame_holds_six_pounds() -> None:
    assert kilograms(1) == pytest.approx(6 * POUND, abs=0.05)
    for pounds in (6, 7, 8):
        assert table.HONEY_FRAME.low <= pounds * POUND <= table.HONEY_FRAME.high


def test_a_gallon_of_thick_syrup_adds_seven_to_nine_pounds() -> None:
    """7 lb as fed in practice, 9.0 lb if nothing were burnt (18 % water)."""
    stores = stores_of_syrup(US_GALLON, "2:1")
    assert stores is not None
    assert 7 * POUND <= stores <= 9 * POUND


def test_a_kilogram_of_sugar_makes_no_more_than_the_association_gives() -> None:
    sugar_in_litre = 0.6148
    stores = stores_of_syrup(1 / sugar_in_litre, "1:1")
    assert stores is not None
    assert 0.95 <= stores <= 1.25


def test_a_quart_jar_of_thin_syrup_is_a_quarter_of_a_frame() -> None:
    assert deep_frames(stores_of_usual_syrup(US_QUART)) == pytest.approx(0.25, abs=0.01)


@pytest.mark.parametrize(
    ("feed", "stores"),
    [
        (Feed(syrup_litres=1, ratio="1:1"), 0.6148 * 1.15),
        (Feed(syrup_litres=1), 0.6148 * 1.15),
        (Feed(honey_frames=0.5), 1.35),
        (Feed(fondant_kg=1), 0.78 * 1.15),
        (Feed(syrup_litres=1, honey_frames=1), 0.6148 * 1.15 + 2.7),
    ],
)
def test_each_food_is_reckoned_as_stores(feed: Feed, stores: float) -> None:
    assert stores_of(feed) == pytest.approx(stores, abs=0.001)


@pytest.mark.parametrize("feed", [None, Feed(), Feed(ratio="1:1"), Feed(1, ratio="thick")])
def test_food_by_no_measure_is_not_guessed(feed: Feed | None) -> None:
    assert stores_of(feed) is None


def test_what_bees_eat_is_what_was_weighed() -> None:
    """6.7 mg a bee and day in broodless colonies of 4,400: abstract (Harbo 1983 from memory),
    https://scilit.com/publications/b87a4e442dd8bcf2f014ec521719ef7b
    """
    assert eaten(4400, 0) == pytest.approx(4400 * 6.7e-6)


def test_a_unit_with_brood_eats_about_what_bees_are_fed() -> None:
    """11 mg of dry sugar a bee and day: Huang, https://bees.msu.edu/feeding-honey-bees/; with 18 %
    of water that is 13.4 mg of stores. A published model (from memory) gives 100 g a day for
    4,000 bees and 4,000 cells of brood.
    """
    a_day = eaten(4000, 4000)
    assert 4000 * 13.4e-6 <= a_day <= 0.105


def test_bees_kept_in_by_cold_eat_more() -> None:
    assert eaten(4000, 1000, kept_in=True) > eaten(4000, 1000)


@given(st.floats(0, 20), st.floats(0, 20))
def test_more_syrup_never_makes_fewer_stores(one: float, more: float) -> None:
    assert stores_of_usual_syrup(one) <= stores_of_usual_syrup(one + more)
