"""Days as people say them, held against dateutil, a reference library for calendars."""

from datetime import date, timedelta

import pytest
from dateutil import parser
from dateutil.relativedelta import FR, MO, SA, SU, TH, TU, WE, relativedelta, weekday
from hypothesis import given
from hypothesis import strategies as st

from bot.reading.lexicon.phrase_table import vocabulary
from bot.reading.reader import read
from bot.reading.result import QuestionKind
from bot.reading.tokens import amounts, dates
from bot.reading.tokens.amounts import amount_at
from bot.reading.tokens.dates import spoken_day_at
from bot.reading.tokens.token import tokenise
from scheduling.values import PutOff
from tests.bot.reading.yards_for_reading import TODAY, at

DAYS = {"monday": MO, "tuesday": TU, "wednesday": WE, "thursday": TH, "friday": FR,
        "saturday": SA, "sunday": SU}  # fmt: skip
todays = st.dates(date(2026, 1, 1), date(2031, 12, 31))


def day_of(text: str, today: date = TODAY) -> date | None:
    reading = read(f"4b eggs {text}", at(today=today))
    return reading.findings[0].on if reading.findings else None


@given(todays, st.sampled_from(sorted(DAYS)))
def test_a_weekday_of_a_finding_is_the_last_one_before_today(today: date, name: str) -> None:
    last = today + relativedelta(days=-1, weekday=DAYS[name](-1))
    is_today = today.weekday() == weekday(DAYS[name].weekday).weekday
    assert day_of(name, today) == (None if is_today else last)


@given(todays, st.sampled_from(sorted(DAYS)))
def test_a_weekday_of_a_put_off_is_the_next_one_after_today(today: date, name: str) -> None:
    following = today + relativedelta(days=+1, weekday=DAYS[name](+1))
    finding = read(f"4b skip till {name}", at(today=today)).findings[0]
    assert finding.value == PutOff(following)


@given(todays, st.integers(1, 200), st.sampled_from(["%d %B", "%B %d", "%d %b", "%Y-%m-%d"]))
def test_a_written_day_of_the_past_is_the_day_the_calendar_says(
    today: date, back: int, form: str
) -> None:
    meant = today - timedelta(days=back)
    written = meant.strftime(form)
    assert parser.parse(f"{written} {meant.year}" if "%Y" not in form else written).date() == meant
    assert day_of(written, today) == (meant if back <= 182 else day_of(written, today))


@pytest.mark.parametrize(
    ("said", "back"),
    [("today", 0), ("yesterday", 1), ("day before yesterday", 2), ("3 days ago", 3),
     ("a week ago", 7), ("this morning", 0), ("last night", 1), ("two weeks ago", 14)],
)  # fmt: skip
def test_days_counted_from_today(said: str, back: int) -> None:
    assert day_of(said) == TODAY - timedelta(days=back)


@pytest.mark.parametrize("said", ["tomorrow", "20 may", "wednesday", "5/4", "31 june", "1/1/2020"])
def test_a_day_to_come_or_with_two_readings_is_asked_about(said: str) -> None:
    reading = read(f"4b eggs {said}", at())
    assert reading.findings == ()
    assert reading.questions


def test_month_and_day_are_told_apart_by_which_is_near() -> None:
    assert day_of("5/10") == date(2027, 5, 10)
    assert day_of("10/5") == date(2027, 5, 10)
    assert day_of("4/30") == date(2027, 4, 30)
    assert day_of("30/4") == date(2027, 4, 30)


def test_one_day_of_two_clauses_is_asked_about_for_the_other() -> None:
    reading = read("4a eggs yesterday, 4b none", at())
    assert [str(finding.place.unit) for finding in reading.findings] == ["4a"]
    assert [question.kind for question in reading.questions] == [QuestionKind.WHICH_DATE]


def test_a_day_said_first_or_last_is_the_day_of_all() -> None:
    for text in ("yesterday 4a eggs, 4b none", "4a eggs, 4b none yesterday"):
        days = {finding.on for finding in read(text, at()).findings}
        assert days == {TODAY - timedelta(days=1)}


SAID = st.lists(st.sampled_from(sorted(vocabulary())), max_size=3)


@given(SAID, st.text("abdeghmnosty 0123456789/-:%,.", max_size=12))
def test_no_day_or_amount_is_missed_for_its_first_word(words: list[str], more: str) -> None:
    found = tokenise(" ".join([*words, more]))
    for i in range(len(found)):
        days = (form(found, i) for form in dates._FORMS)
        assert spoken_day_at(found, i) == next((day for day in days if day), None)
        told = (form(found, i) for form in amounts._FORMS)
        assert amount_at(found, i) == next((amount for amount in told if amount), None)
