"""The heat index against the printed table of the US National Weather Service, Tulsa.

http://www.srh.noaa.gov/tsa/?n=heatindex; the formula is that of
https://www.wpc.ncep.noaa.gov/html/heatindex_equation.shtml. Whole degrees are printed, so 0.6 may
differ. The printed table leaves out the adjustment for humidity above 85 % and under 87 F, so
those cells are held against the formula worked out by hand.
"""

import pytest

from scheduling.weather.heat import (
    ColonyHeat,
    HeatBand,
    colony_heat,
    fahrenheit,
    heat_band,
    heat_index_f,
)

HUMIDITIES = (40, 50, 60, 70, 80, 90)
PRINTED: dict[int, tuple[int, ...]] = {
    80: (80, 81, 82, 83, 84, 86),
    84: (83, 85, 88, 90, 94, 98),
    86: (85, 88, 91, 95, 100, 105),
    90: (91, 95, 100, 106, 113, 122),
    94: (97, 103, 110, 119, 129),
    96: (101, 108, 116, 126),
    100: (109, 118, 129),
    104: (119, 131),
    110: (136,),
}
CELLS = [
    (warm, humid, index)
    for warm, row in PRINTED.items()
    for humid, index in zip(HUMIDITIES, row, strict=False)
    if not (humid > 85 and warm < 87)
]


@pytest.mark.parametrize(("warm", "humid", "printed"), CELLS)
def test_it_is_what_the_table_says(warm: int, humid: int, printed: int) -> None:
    assert heat_index_f(warm, humid) == pytest.approx(printed, abs=0.6)


@pytest.mark.parametrize(
    ("warm", "humid", "worked_out"),
    [
        (70, 50, 69.53),
        (75, 60, 75.01),
        (80, 90, 86.34),
        (84, 90, 98.34),
        (86, 90, 105.39),
        (95, 10, 89.45),
        (100, 10, 94.12),
    ],
)
def test_mild_air_and_the_adjustments_follow_the_formula(
    warm: int, humid: int, worked_out: float
) -> None:
    assert heat_index_f(warm, humid) == pytest.approx(worked_out, abs=0.01)


@pytest.mark.parametrize(
    ("index", "band"),
    [
        (79.9, HeatBand.NONE),
        (80, HeatBand.CAUTION),
        (90, HeatBand.EXTREME_CAUTION),
        (103, HeatBand.DANGER),
        (125, HeatBand.EXTREME_DANGER),
    ],
)
def test_the_bands_begin_where_the_chart_says(index: float, band: HeatBand) -> None:
    """Caution 80, extreme caution 90, danger 103, extreme danger 125: the service's chart, as
    quoted at https://w12thrd.blogspot.com/2015/07/what-is-heat-index.html; OSHA too sets high risk
    from 103, https://docslib.org/doc/11368942/using-the-heat-index-a-guide-for-employers.
    """
    assert heat_band(index) is band


@pytest.mark.parametrize(("celsius", "degrees"), [(0, 32), (100, 212), (-40, -40), (35, 95)])
def test_celsius_to_fahrenheit(celsius: float, degrees: float) -> None:
    assert fahrenheit(celsius) == degrees


def test_small_colonies_want_shade_from_32_degrees_and_a_look_from_38() -> None:
    """From memory; no published figure was found."""
    asked = [colony_heat(warm) for warm in (31, 32, 37.9, 38)]
    shade, leave = ColonyHeat.SHADE_AND_WATER, ColonyHeat.MAY_ABSCOND
    assert asked == [ColonyHeat.NONE, shade, shade, leave]
