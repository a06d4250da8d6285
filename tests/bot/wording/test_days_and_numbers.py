import locale
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.wording.days_and_numbers import day_count, day_words, full_day

TODAY = date(2026, 5, 14)


# Weekday of a known date: ISO 8601:2004 gives Saturday 1 January 2000 (2000-W52-6), from memory.
def test_a_day_carries_its_weekday() -> None:
    assert full_day(date(2000, 1, 1)) == "Sat 1 Jan"


@pytest.mark.parametrize(
    ("away", "words"),
    [
        (-200, "Sun 26 Oct 2025"),
        (-7, "Thu 7 May"),
        (-6, "Fri"),
        (-1, "yesterday"),
        (0, "today"),
        (1, "tomorrow"),
        (2, "Sat"),
        (6, "Wed"),
        (7, "Thu 21 May"),
        (182, "Thu 12 Nov"),
        (300, "Wed 10 Mar 2027"),
    ],
)
def test_a_day_is_told_from_today(away: int, words: str) -> None:
    assert day_words(TODAY + timedelta(days=away), TODAY) == words


@given(st.dates(date(2000, 1, 1), date(2099, 12, 31)))
def test_every_day_reads_as_the_calendar_has_it_in_english(day: date) -> None:
    locale.setlocale(locale.LC_TIME, "C")
    assert full_day(day) == day.strftime("%a ") + str(day.day) + day.strftime(" %b")


@given(st.integers(-182, 182), st.integers(-182, 182))
def test_no_two_days_ahead_are_told_alike(one: int, other: int) -> None:
    if one != other and (one < 0) == (other < 0):
        first = day_words(TODAY + timedelta(days=one), TODAY)
        assert first != day_words(TODAY + timedelta(days=other), TODAY)


def test_days_are_counted_in_words() -> None:
    assert [day_count(days) for days in (0, 1, 3)] == ["0 days", "1 day", "3 days"]
