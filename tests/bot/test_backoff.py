"""How long is waited before the next try."""

from datetime import timedelta

from hypothesis import given
from hypothesis import strategies as st

from bot.backoff import Backoff

WAITS = Backoff(timedelta(seconds=1), timedelta(seconds=10))


def test_waits_double_up_to_the_longest() -> None:
    waits = [WAITS.after(failures).total_seconds() for failures in (1, 2, 3, 4, 5, 6)]
    assert waits == [1, 2, 4, 8, 10, 10]


def test_after_a_week_of_failures_it_still_waits_no_longer() -> None:
    assert WAITS.after(60_480) == timedelta(seconds=10)


@given(
    first=st.timedeltas(timedelta(milliseconds=1), timedelta(hours=1)),
    times=st.integers(1, 1000),
    failures=st.integers(1, 10_000),
)
def test_a_wait_is_never_shorter_than_the_one_before(
    first: timedelta, times: int, failures: int
) -> None:
    waits = Backoff(first, first * times)
    assert first <= waits.after(failures) <= waits.after(failures + 1) <= first * times
