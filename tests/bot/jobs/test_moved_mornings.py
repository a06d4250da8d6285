"""A morning's hour or zone is changed: each date lived through from then on has one morning."""

from datetime import UTC, date, datetime, time, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sqlalchemy import Engine

from deploy.standins.phones import Phones, river_of_three
from scheduling.wall_time import first_after_change, local_day, next_at

HALF_PAST_SIX = time(6, 30)
DAY = date(2027, 5, 12)

ZONES = st.sampled_from(
    ["America/Chicago", "Pacific/Auckland", "Pacific/Honolulu", "Pacific/Kiritimati", "UTC",
     "America/Nuuk", "Australia/Lord_Howe", "Europe/Berlin"]
)  # fmt: skip
TIMES = st.times().map(lambda t: t.replace(second=0, microsecond=0))
INSTANTS = st.datetimes(datetime(2026, 1, 5), datetime(2036, 12, 1), timezones=st.just(UTC))  # noqa: DTZ001


def utc(day: int, hour: int, minute: int = 0) -> datetime:
    return datetime(2027, 5, day, hour, minute, tzinfo=UTC)


@given(INSTANTS, ZONES, TIMES, ZONES, TIMES)
def test_each_date_from_the_change_on_has_exactly_one_morning(
    now: datetime, was_in: str, was_at: time, zone: str, at: time
) -> None:
    before = next_at(now - timedelta(days=4), was_at, was_in)
    told = []
    while before <= now:
        told.append(local_day(before, was_in))
        before = next_at(before, was_at, was_in)

    ring = first_after_change(now, before, was_in, at, zone)
    for _ in range(4):
        assert ring >= now
        told.append(local_day(ring, zone))
        ring = next_at(ring, at, zone)

    assert len(told) == len(set(told))
    today = local_day(now, zone)
    assert {today + timedelta(days=n) for n in range(3)} <= set(told)


@pytest.mark.parametrize(
    ("now", "zone", "first"),
    [
        # Chicago is 5 h behind UTC in May, Auckland 12 h ahead: IANA time zone database.
        (utc(12, 20), "Pacific/Auckland", utc(12, 20)),  # 13 May 8:00 there, not told of yet
        (utc(12, 17), "Pacific/Auckland", utc(12, 18, 30)),  # 13 May 5:00 there
        (utc(12, 20), "Pacific/Honolulu", utc(13, 16, 30)),  # 12 May 10:00 there, told in Chicago
        (utc(13, 11), "Pacific/Honolulu", utc(13, 16, 30)),  # 13 May 1:00 there
    ],
)
def test_who_moves_from_chicago_has_the_first_date_there_at_its_hour_or_at_once(
    now: datetime, zone: str, first: datetime
) -> None:
    before = utc(13, 11, 30)
    assert first_after_change(now, before, "America/Chicago", HALF_PAST_SIX, zone) == first


def begun(engine: Engine) -> Phones:
    """Ada, whose morning is at 6:30 in UTC, has cells due a look; it is 12 May, 5:00."""
    phones = Phones(engine, DAY - timedelta(days=14))
    river_of_three(phones)
    phones.each("Ada", "10 day cells in 1a-c", "daily word on")
    return phones.on(DAY, 5)


def mornings(phones: Phones, *hours: int) -> list[str]:
    """What rings at these hours of the day, in each first line."""
    day = phones.now.date()
    return [
        outgoing.text.splitlines()[0]
        for hour in hours
        for outgoing in phones.on(day, hour).morning()
        if "caution" not in outgoing.text.casefold()
    ]


def test_an_earlier_hour_set_before_todays_morning_but_past_already_rings_at_once(
    engine: Engine,
) -> None:
    phones = begun(engine)
    phones.say("Ada", "morning 4:00")

    (told,) = mornings(phones, 5, 6, 7, 23)
    assert "Wed 12 May" in told
    assert len(phones.on(DAY + timedelta(days=1), 4).morning()) == 1


def test_an_hour_set_after_todays_morning_waits_for_tomorrow(engine: Engine) -> None:
    phones = begun(engine)
    assert len(mornings(phones, 7)) == 1
    phones.say("Ada", "morning 5:00")

    assert mornings(phones, 7, 8, 23) == []
    assert len(phones.on(DAY + timedelta(days=1), 5).morning()) == 1


def test_who_moves_to_auckland_in_their_morning_has_it_at_once_and_then_at_half_past_six(
    engine: Engine,
) -> None:
    phones = begun(engine)
    assert len(mornings(phones, 7)) == 1
    phones.on(DAY, 20).say("Ada", "zone Pacific/Auckland")

    (told,) = mornings(phones, 20, 21, 23)
    assert "Thu 13 May" in told
    after = mornings(phones.on(DAY + timedelta(days=1), 18), 18, 19, 20)
    assert ["Fri 14 May" in each for each in after] == [True]


def test_who_starts_again_hears_from_the_next_morning_on(engine: Engine) -> None:
    phones = begun(engine)
    phones.say("Ada", "stop")
    phones.on(DAY + timedelta(days=2), 12).say("Ada", "start")

    assert phones.morning() == []
    assert len(phones.on(DAY + timedelta(days=3), 7).morning()) == 1
