"""Twelve laying queens by the tenth of June, by hand.

Ripe cells 10 days after the graft, out at 12 (Cushman, "Grafting timetable",
http://dave-cushman.net/bee/graftingtimesheet.html); eggs by 14 days after emergence (EU project
B-THENET practice sheet); three quarters of the cells emerge and three quarters of those come back
("How to use capped queen cells",
http://sbip.loneoakhoney.com/equipment-and-techniques/how-to-use-capped-queen-cells); four fifths in
four-way boxes ("Queen yard and mating nucs", https://eberthoney.com/blogs/news/queen-yard-and-mating-nucs);
12 of 27 and 17 of 26 virgins laid (Panasiuk et al. 2015,
http://coloss.org/2015conference/registrations/panasiuk); drones from 33 to 43 days after their egg
(club talk, https://slideplayer.com./amp/12985101).
"""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduling.trade import table
from scheduling.trade.batches import at_least, cells_for, plan_back
from scheduling.trade.constant import Window

PLAN = plan_back(12, date(2027, 6, 10))


def test_the_dates_counted_back_by_hand() -> None:
    assert PLAN.graft_on == date(2027, 5, 15)  # 10 June - 14 - 12
    assert PLAN.comb_on == date(2027, 5, 11)
    assert PLAN.starter_on == date(2027, 5, 14)
    assert PLAN.make_up_on == date(2027, 5, 24)
    assert PLAN.place_on == date(2027, 5, 25)
    assert PLAN.look_on == date(2027, 6, 8)
    assert PLAN.drones == Window(date(2027, 4, 21), date(2027, 4, 26), date(2027, 5, 1))


def test_the_numbers_by_hand() -> None:
    assert PLAN.units == 19  # 12 / 0.65 = 18.5
    assert PLAN.units_range == (15, 22)  # 12 / 0.80 = 15, 12 / 0.55 = 21.8
    assert PLAN.larvae == 26  # 19 / 0.75 = 25.3
    assert PLAN.laying_range == (10, 15)  # 19 * 0.55 = 10.45, 19 * 0.80 = 15.2


def test_the_rates_that_were_read_lie_within_the_range() -> None:
    rate = table.LAYING_PER_CELL
    assert pytest.approx(0.5625) == 0.75 * 0.75
    assert rate.low <= 0.75 * 0.75 <= rate.high
    assert rate.low <= 17 / 26 <= rate.high
    assert rate.value == pytest.approx((0.5 * (12 / 27 + 17 / 26) + 0.80) / 2, abs=0.05)


def test_the_chance_of_two_out_of_three_by_hand() -> None:
    assert at_least(2, 3, 0.5) == pytest.approx(0.5)  # 3/8 + 1/8
    assert at_least(1, 2, 0.8) == pytest.approx(0.96)  # 1 - 0.2 * 0.2
    assert at_least(0, 4, 0.3) == pytest.approx(1)
    assert at_least(5, 4, 0.9) == 0


def test_how_sure_it_is() -> None:
    assert PLAN.enough.low < 0.5 < PLAN.enough.usual < PLAN.enough.high


def test_more_units_make_it_surer_and_the_graft_larger() -> None:
    more = plan_back(12, date(2027, 6, 10), units=24)
    assert (more.units, more.larvae) == (24, 32)
    assert more.enough.low > PLAN.enough.low
    assert more.graft_on == PLAN.graft_on


@pytest.mark.parametrize(("wanted", "units"), [(0, None), (-1, None), (3, 0)])
def test_a_plan_for_nothing_is_refused(wanted: int, units: int | None) -> None:
    with pytest.raises(ValueError, match="at least one"):
        plan_back(wanted, date(2027, 6, 10), units)


@given(st.integers(1, 500), st.floats(0.05, 1))
def test_enough_are_begun_and_not_one_too_many(wanted: int, rate: float) -> None:
    begun = cells_for(wanted, rate)
    assert begun * rate >= wanted - 1e-6
    assert (begun - 1) * rate < wanted


@given(st.integers(1, 40), st.integers(1, 40), st.floats(0, 1))
def test_wanting_more_is_never_surer(wanted: int, tried: int, rate: float) -> None:
    assert at_least(wanted + 1, tried, rate) <= at_least(wanted, tried, rate) + 1e-12
