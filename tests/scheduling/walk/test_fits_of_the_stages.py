"""The fitted stages against the published figures, with scipy as the reference for the fits."""

import pytest
from scipy import stats

from scheduling.trade import table
from scheduling.trade.constant import Constant
from scheduling.walk.case import LONGEST_EMERGENCE
from scheduling.walk.stages import (
    EMERGENCE,
    NEGLIGIBLE,
    OWN_EMERGENCE,
    PUBLISHED,
    certain,
    fitted_flight_chance,
    log_normal,
    shape,
)

FITTED = {
    "emergence": table.EMERGENCE_FROM_GRAFT,
    "own queen's emergence": table.OWN_EMERGENCE,
    "maturing": table.MATURE_FROM_EMERGENCE,
    "mating to egg": table.FIRST_EGG_FROM_MATING,
}


@pytest.mark.parametrize("figure", FITTED.values(), ids=FITTED)
def test_each_day_has_the_chance_that_scipy_gives_it(figure: Constant) -> None:
    reference = stats.lognorm(s=shape(figure), scale=figure.value)
    spread = log_normal(figure)
    for number, chance in enumerate(spread.chances):
        day = spread.first + number
        expected = reference.cdf(day + 0.5) - reference.cdf(day - 0.5)
        assert chance == pytest.approx(expected, abs=10 * NEGLIGIBLE)


@pytest.mark.parametrize("figure", FITTED.values(), ids=FITTED)
def test_the_published_range_is_as_wide_as_the_central_95_percent(figure: Constant) -> None:
    reference = stats.lognorm(s=shape(figure), scale=figure.value)
    low, high = reference.ppf([0.025, 0.975])
    assert high / low == pytest.approx(figure.high / figure.low)
    assert reference.median() == pytest.approx(figure.value)


@pytest.mark.parametrize("figure", FITTED.values(), ids=FITTED)
def test_chances_sum_to_one_and_hardly_leave_the_published_range(figure: Constant) -> None:
    spread = log_normal(figure)
    days = range(spread.first, spread.last + 1)
    inside = sum(c for d, c in zip(days, spread.chances, strict=True) if _within(d, figure))
    assert sum(spread.chances) == pytest.approx(1)
    assert inside > 0.95
    assert spread.mean == pytest.approx(figure.value, abs=0.1)


def _within(day: int, figure: Constant) -> bool:
    return figure.low <= day <= figure.high


def waiting() -> stats.rv_discrete:
    """Whole flying days a mature virgin lets go by: scipy counts the day of success as 1."""
    return stats.geom(PUBLISHED.flight_chance, loc=-1)


def test_first_egg_on_the_published_mean_day() -> None:
    """Mean 10.6 days: Szabo et al. 1987, J. Apic. Res. 26:73-78, as cited in
    http://honeybee.drawwing.org/book/queen-egg-laying
    """
    mean = PUBLISHED.maturing.mean + waiting().mean() + PUBLISHED.to_first_egg.mean
    assert mean == pytest.approx(10.6)


def test_mating_at_the_measured_age_though_not_fitted_to_it() -> None:
    """Mean age 7 and 9 days: Panasiuk et al., COLOSS conference 2015,
    http://coloss.org/2015conference/registrations/panasiuk; up to day 14:
    https://apis.vet/el-apareamiento-y-fecundacion-de-la-reina/
    """
    assert 7 < PUBLISHED.maturing.mean + waiting().mean() < 9
    by_day_14 = sum(
        chance * waiting().cdf(14 - PUBLISHED.maturing.first - number)
        for number, chance in enumerate(PUBLISHED.maturing.chances)
    )
    assert by_day_14 > 0.95


def test_a_queen_can_be_mated_before_she_is_too_old() -> None:
    limits = table.GIVE_UP_FROM_EMERGENCE
    assert [PUBLISHED.mates_well(age) for age in (20, 21, 28, 35)] == [1, 1, 0, 0]
    assert PUBLISHED.mates_well(24) == pytest.approx(4 / 7)
    assert (PUBLISHED.mates_well_until, PUBLISHED.mates_until) == (limits.low, limits.high)


def test_the_share_of_cells_that_lay_is_what_is_planned_for() -> None:
    planned = table.LAYING_PER_CELL
    young_days = 10.6
    share = PUBLISHED.emerge * PUBLISHED.back * (1 - PUBLISHED.lost_a_day) ** young_days
    assert planned.low <= round(share, 2) <= planned.high


def test_stages_longer_than_the_whole_are_refused() -> None:
    with pytest.raises(ValueError, match="longer"):
        fitted_flight_chance(certain(6), certain(3), 8.0)
    assert fitted_flight_chance(certain(5), certain(3), 8.0) == 1


def test_a_moved_spread_takes_longer_and_is_no_wider() -> None:
    moved = certain(3).moved(2)
    assert (moved.first, moved.last, moved.mean) == (5, 5, 5)


def test_every_emergence_fits_into_the_days_walked() -> None:
    for spread in (EMERGENCE, OWN_EMERGENCE):
        assert len(spread.chances) <= LONGEST_EMERGENCE
        assert spread.first < 0 < spread.last
