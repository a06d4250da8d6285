"""A queen's days are cut out of what is known of her yard's weather, however much that is."""

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from scheduling.checks.flying_weather import POOR, FlyingWeather
from scheduling.trade import table
from scheduling.values import Flying
from scheduling.walk.case import DAYS
from scheduling.weather.yard_weather import YardWeather
from tests.scheduling.story import YARD, may

days_about_may = st.dates(may(1) - timedelta(days=DAYS + 9), may(1) + timedelta(days=DAYS + 9))
weathers = st.builds(
    YardWeather,
    st.dictionaries(days_about_may, st.floats(0, 4), max_size=60),
    st.dictionaries(days_about_may, st.sampled_from(Flying), max_size=4),
)


@given(weathers, days_about_may, st.integers(0, DAYS))
def test_each_day_of_a_span_is_as_the_yard_has_it(
    weather: YardWeather, first: date, kept_in: int
) -> None:
    span = FlyingWeather({YARD: weather}).span(YARD, first, kept_in)
    days = [first + timedelta(days=number) for number in range(DAYS)]
    shares = [weather.share(day) for day in days]
    assert span.flying == (0.0,) * kept_in + tuple(shares[kept_in:])
    old_enough = max(kept_in, int(table.MATURE_FROM_EMERGENCE.low))
    later = list(zip(days, shares, strict=True))[old_enough:]
    assert span.grounded == tuple(day for day, share in later if share < POOR)
    told = weather.flight_hours.keys() | weather.words.keys()
    assert span.known == any(day in told for day, _share in later)


def test_a_word_of_long_ago_leaves_this_year_in_good_weather() -> None:
    weather = YardWeather(words={date(2019, 6, 1): Flying.NOT_FLYING})
    span = FlyingWeather({YARD: weather}).span(YARD, may(1), 0)
    assert span.flying == (1.0,) * DAYS
    assert not span.known


def test_a_yard_of_which_nothing_is_known_has_good_weather() -> None:
    span = FlyingWeather({}).span(YARD, may(1), 2)
    assert span.flying == (0.0, 0.0) + (1.0,) * (DAYS - 2)
    assert (span.grounded, span.known) == ((), False)
