"""Density of syrup and sugar in a litre against published tables of sucrose in water at 20 C.

The program's own rows are those of the CRC handbook. Held against: the Korean Food Code, section
12.7, sugar by specific gravity, http://foodsafetykorea.go.kr/foodcode/menu_01_03.jsp?idx=12128
(its column from memory that of NBS Circular 440); and the grams in a litre that stand beside the
densities in the CRC table, as numbers in pcingola/SnpEff,
src/main/java/flanagan/physprop/Sucrose.java. NBS Circular 440 at 60 and 66 to 67 %: from memory.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduling.colony.stores import (
    USUAL_PERCENT,
    USUAL_RATIO,
    density,
    sugar_per_litre,
    sugar_percent,
)
from scheduling.trade import table


@pytest.mark.parametrize(
    ("percent", "grams_per_cubic_centimetre"),
    [(44, 1.197247), (50, 1.229567), (54, 1.251866)],
)
def test_density_agrees_with_the_food_code(
    percent: float, grams_per_cubic_centimetre: float
) -> None:
    assert density(percent) == pytest.approx(grams_per_cubic_centimetre, abs=0.0001)


@pytest.mark.parametrize(
    ("percent", "grams_per_cubic_centimetre"),
    [(60, 1.28646), (66, 1.32242), (200 / 3, 1.3265)],
)
def test_density_of_thick_syrup_agrees_with_the_bureau_of_standards(
    percent: float, grams_per_cubic_centimetre: float
) -> None:
    """NBS Circular 440, from memory; between its rows 66 and 67 by a straight line."""
    assert density(percent) == pytest.approx(grams_per_cubic_centimetre, abs=0.0002)


@pytest.mark.parametrize(
    ("percent", "grams_per_litre"),
    [(40, 470.6), (44, 526.8), (46, 555.6), (50, 614.8), (54, 676), (60, 771.9), (62, 804.9),
     (64, 838.6), (66, 872.8), (68, 907.6)],
)  # fmt: skip
def test_sugar_in_a_litre_is_that_of_the_printed_column(
    percent: float, grams_per_litre: float
) -> None:
    assert sugar_per_litre(percent) * 1000 == pytest.approx(grams_per_litre, abs=0.1)


@pytest.mark.parametrize(
    ("percent", "printed"),
    [(34, 1146.4), (36, 1156.2), (38, 1166.3), (42, 1186.8), (46, 1207.9), (72, 1359.9),
     (76, 1385.5)],
)  # fmt: skip
def test_between_its_rows_a_straight_line_is_near_enough(percent: float, printed: float) -> None:
    """Rows of the same printed table that the program does without."""
    assert density(percent) * 1000 == pytest.approx(printed, abs=1.0)


@pytest.mark.parametrize(
    ("ratio", "percent"),
    [("1:1", 50), ("2:1", 200 / 3), ("3:2", 60), ("1 to 1", 50), ("1:0.63", 61.35)],
)
def test_a_ratio_is_sugar_to_water_by_weight(ratio: str, percent: float) -> None:
    assert sugar_percent(ratio) == pytest.approx(percent, abs=0.01)


@pytest.mark.parametrize("ratio", ["", "thick", "1", "0:0", "1:1:1"])
def test_what_is_no_ratio_tells_no_sugar(ratio: str) -> None:
    assert sugar_percent(ratio) is None


def test_a_litre_of_syrup_is_made_of_as_much_sugar_as_recipes_say() -> None:
    """2 kg of sugar and 1 kg of water fill 3 / 1.3265 litres: 1.13 to each kilogram of sugar."""
    assert 1 / sugar_per_litre(200 / 3) == pytest.approx(1.131, abs=0.001)
    assert 1 / sugar_per_litre(50) == pytest.approx(1.627, abs=0.001)


@given(st.floats(0, 100), st.floats(0, 100))
def test_more_sugar_is_never_lighter(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert table.SYRUP_DENSITY[0][1] / 1000 <= density(low) <= density(high)


def test_the_usual_syrup_has_the_sugar_of_its_ratio() -> None:
    assert sugar_percent(USUAL_RATIO) == USUAL_PERCENT
