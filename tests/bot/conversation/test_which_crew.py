"""For which of several crews a message is, told from how it looks in each."""

from datetime import UTC, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.conversation.several_crews import Fit, Moment, Side, which


def at(hour: int, number: int = 0) -> Moment:
    return datetime(2027, 5, 12, hour, tzinfo=UTC), number


FITS = Side(Fit.WHOLE)
NOT_HERE = Side(Fit.NOT)


@pytest.mark.parametrize(
    ("sides", "meant"),
    [
        ([FITS, NOT_HERE], 0),
        ([NOT_HERE, FITS], 1),
        ([Side(Fit.PARTLY), FITS], 1),
        ([FITS, FITS], None),
        ([FITS, Side(Fit.PARTLY, names=True)], 1),
        ([Side(Fit.WHOLE, spoke=at(9)), FITS], 0),
        ([Side(Fit.WHOLE, spoke=at(9)), Side(Fit.WHOLE, spoke=at(10))], 1),
        ([Side(Fit.WHOLE, wrote=at(8)), FITS], 0),
        ([Side(Fit.WHOLE, wrote=at(8)), Side(Fit.WHOLE, wrote=at(8))], None),
        ([Side(Fit.WHOLE, spoke=at(7)), Side(Fit.WHOLE, wrote=at(8))], None),
        ([Side(Fit.WHOLE, spoke=at(9)), Side(Fit.WHOLE, wrote=at(8))], 0),
        ([Side(Fit.WHOLE, spoke=at(8, 2)), Side(Fit.WHOLE, wrote=at(8, 1))], 0),
        ([Side(Fit.NOT, spoke=at(9)), FITS, FITS], None),
        ([NOT_HERE, Side(Fit.NOT, spoke=at(9))], 1),
        ([NOT_HERE, NOT_HERE], 0),
    ],
)
def test_a_message_goes_where_it_can_only_be_meant(sides: list[Side], meant: int | None) -> None:
    assert which(sides) == meant


moments = st.none() | st.tuples(
    st.integers(0, 23).map(lambda hour: at(hour)[0]),
    st.integers(1, 9),
)
sides = st.builds(Side, st.sampled_from(Fit), st.booleans(), moments, moments)


@given(st.lists(sides, min_size=2, max_size=4))
def test_it_never_goes_where_it_fits_less(each: list[Side]) -> None:
    place = which(each)
    rivals = [side for side in each if side.names] or each
    best = max(side.fit for side in rivals)
    if place is not None:
        assert each[place].fit == best
        assert each[place] in rivals
    elif best is not Fit.NOT:
        assert sum(side.fit is best for side in rivals) > 1
