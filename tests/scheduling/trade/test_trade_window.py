"""The earliest, the best and the last date of a look."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduling.trade import table
from scheduling.trade.constant import Window, days_after

DAYS = st.dates(date(2020, 1, 1), date(2035, 12, 31))


def test_a_ripe_cell_is_placed_nine_to_eleven_days_after_the_graft() -> None:
    window = table.RIPE_LOOK_FROM_GRAFT.window(date(2027, 4, 28))
    assert window == Window(date(2027, 5, 7), date(2027, 5, 8), date(2027, 5, 9))


def test_dates_out_of_order_are_refused() -> None:
    with pytest.raises(ValueError, match="out of order"):
        Window(date(2027, 5, 2), date(2027, 5, 1), date(2027, 5, 3))


def test_dates_count_over_a_leap_day() -> None:
    assert days_after(date(2028, 2, 28), 2) == date(2028, 3, 1)
    assert table.GRAFT_FROM_EGG.before(date(2028, 3, 1)) == date(2028, 2, 26)


@given(DAYS, DAYS)
def test_no_date_is_earlier_than_asked(start: date, earliest: date) -> None:
    window = table.LAYING_LOOK_FROM_EMERGENCE.window(start).not_earlier_than(earliest)
    assert window.not_before >= earliest


@given(DAYS, DAYS)
def test_the_best_date_can_be_set_anywhere(start: date, best: date) -> None:
    assert table.FEED_LOOK.window(start).best_on(best).best == best


@given(DAYS, DAYS)
def test_cutting_off_never_drops_the_best_date(start: date, end: date) -> None:
    window = table.RECELL_AFTER_LOSS.window(start)
    cut = window.ending_by(end)
    assert cut.best == window.best
    assert cut.by <= window.by


@given(DAYS, st.integers(-50, 50))
def test_moving_there_and_back_changes_nothing(start: date, days: int) -> None:
    window = table.FEED_LOOK.window(start)
    assert window.moved(days).moved(-days) == window
