"""Heat: the keeper's heat index, and what small colonies want on a hot day."""

from enum import IntEnum
from math import sqrt

from scheduling.trade import table


class HeatBand(IntEnum):
    """How hard the heat is on a keeper, by the heat index."""

    NONE = 0
    CAUTION = 1
    EXTREME_CAUTION = 2
    DANGER = 3
    EXTREME_DANGER = 4


class ColonyHeat(IntEnum):
    """What the heat asks for at the colonies."""

    NONE = 0
    SHADE_AND_WATER = 1
    """Shade, water, and the screened floor open."""
    MAY_ABSCOND = 2
    """The same, and bees may leave their box: look in on them."""


def fahrenheit(celsius: float) -> float:
    """Turn degrees Celsius into degrees Fahrenheit."""
    return celsius * 9 / 5 + 32


def heat_index_f(temperature_f: float, humidity_percent: float) -> float:
    """Give the heat index of the US National Weather Service, degrees Fahrenheit.

    For the shade and a light wind; full sun adds up to 15 degrees. By Rothfusz's regression with
    its adjustments, https://www.wpc.ncep.noaa.gov/html/heatindex_equation.shtml, and the simple
    formula of the same page where the index is under 80.
    """
    t, r = temperature_f, humidity_percent
    simple = (0.5 * (t + 61.0 + (t - 68.0) * 1.2 + r * 0.094) + t) / 2
    if simple < 80:
        return simple
    return _regression(t, r) + _adjustment(t, r)


def _regression(t: float, r: float) -> float:
    return (
        -42.379
        + 2.04901523 * t
        + 10.14333127 * r
        - 0.22475541 * t * r
        - 0.00683783 * t * t
        - 0.05481717 * r * r
        + 0.00122874 * t * t * r
        + 0.00085282 * t * r * r
        - 0.00000199 * t * t * r * r
    )


def _adjustment(t: float, r: float) -> float:
    if r < 13 and 80 <= t <= 112:
        return -((13 - r) / 4) * sqrt((17 - abs(t - 95)) / 17)
    if r > 85 and 80 <= t <= 87:
        return ((r - 85) / 10) * ((87 - t) / 5)
    return 0.0


def heat_band(index_f: float) -> HeatBand:
    """Give the band of a heat index in degrees Fahrenheit."""
    limits = (
        table.HEAT_CAUTION,
        table.HEAT_EXTREME_CAUTION,
        table.HEAT_DANGER,
        table.HEAT_EXTREME_DANGER,
    )
    return HeatBand(sum(index_f >= limit.value for limit in limits))


def colony_heat(warmest_c: float) -> ColonyHeat:
    """Tell what a day asks for at the colonies, by its highest temperature in Celsius."""
    limits = (table.COLONY_HOT, table.COLONY_TOO_HOT)
    return ColonyHeat(sum(warmest_c >= limit.value for limit in limits))
