"""When quiet hours end, by the wall clock and across its changes."""

from dataclasses import replace
from datetime import UTC, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sqlalchemy import Engine

from bot.channels.channel import OutgoingMessage
from bot.channels.traits import NO_QUIET, SMS, USUAL_QUIET, QuietHours
from bot.delivery.claims import claim
from bot.delivery.outbox import Recipient, plan
from bot.delivery.quiet_hours import quiet_end, quiet_on
from bot.delivery.rules import Purpose
from scheduling.records.crew_records import CrewRecords, found_crew
from scheduling.records.engine import writing
from scheduling.records.people import Person

CHICAGO = "America/Chicago"

ZONES = (
    CHICAGO, "UTC", "Europe/London", "Australia/Lord_Howe", "Pacific/Apia", "America/Nuuk",
    "Asia/Kolkata", "America/Asuncion", "Africa/Casablanca",
)  # fmt: skip


def at(text: str, zone: str = CHICAGO) -> datetime:
    return datetime.fromisoformat(text).replace(tzinfo=ZoneInfo(zone)).astimezone(UTC)


@pytest.fixture
def ada(engine: Engine) -> Person:
    with writing(engine) as session:
        _, person = found_crew(session, "crew", "Ada", CHICAGO, at("2027-05-12 12:00"))
    return person


@pytest.mark.parametrize(
    ("now", "end"),
    [
        ("2027-05-12 19:59", None),
        ("2027-05-12 20:00", "2027-05-13 08:00"),
        ("2027-05-12 23:59", "2027-05-13 08:00"),
        ("2027-05-13 00:00", "2027-05-13 08:00"),
        ("2027-05-13 07:59", "2027-05-13 08:00"),
        ("2027-05-13 08:00", None),
        # Clocks go forward on 14 March 2027 and back on 7 November 2027 at 2 in the morning.
        ("2027-03-13 22:00", "2027-03-14 08:00"),
        ("2027-11-06 22:00", "2027-11-07 08:00"),
    ],
)
def test_texts_wait_from_eight_in_the_evening_to_eight_in_the_morning(
    now: str, end: str | None
) -> None:
    assert quiet_end(at(now), SMS.quiet, CHICAGO) == (None if end is None else at(end))


def test_an_end_that_the_clock_skips_comes_after_the_change() -> None:
    hours = QuietHours(time(21), time(2, 30))

    assert quiet_end(at("2027-03-14 01:00"), hours, CHICAGO) == at("2027-03-14 03:30")


def test_an_end_that_comes_twice_is_the_one_still_to_come() -> None:
    hours = QuietHours(time(21), time(1, 30))
    first = at("2027-11-07 01:30")
    again = at("2027-11-07 00:00") + timedelta(hours=2)

    assert quiet_end(at("2027-11-07 00:30"), hours, CHICAGO) == first
    assert quiet_end(first, hours, CHICAGO) is None
    assert quiet_end(again, hours, CHICAGO) == again + timedelta(minutes=30)


@given(
    now=st.datetimes(datetime(2026, 1, 1), datetime(2028, 12, 31), timezones=st.just(UTC)),  # noqa: DTZ001
    begin=st.times(),
    end=st.times(),
    zone=st.sampled_from(ZONES),
)
def test_what_waits_is_never_sent_in_quiet_hours_and_never_lost(
    now: datetime, begin: time, end: time, zone: str
) -> None:
    hours = QuietHours(begin, end)
    ends = quiet_end(now, hours, zone)

    if ends is None:
        assert not hours.hold(now.astimezone(ZoneInfo(zone)).time())
    else:
        assert not hours.hold(ends.astimezone(ZoneInfo(zone)).time())
        assert now < ends <= now + timedelta(days=2)


def test_no_quiet_at_all_is_a_span_of_no_length(ada: Person) -> None:
    none = replace(ada, quiet_from=time(), quiet_until=time())

    assert quiet_end(at("2027-05-13 03:00"), quiet_on("sms", none), CHICAGO) is None


def test_each_channel_has_its_hours_until_a_person_settles_theirs(ada: Person) -> None:
    own = replace(ada, quiet_from=time(22), quiet_until=time(7))

    assert quiet_on("sms", ada) == SMS.quiet
    assert quiet_on("telegram", ada) == quiet_on("mail", ada) == USUAL_QUIET
    assert quiet_on("sms", own) == quiet_on("telegram", own) == QuietHours(time(22), time(7))


def test_whoever_sits_at_a_terminal_is_awake(ada: Person) -> None:
    settled = replace(ada, quiet_from=time(12), quiet_until=time(11))
    assert quiet_on("console", ada) == quiet_on("console", settled) == NO_QUIET


def test_only_a_morning_that_was_asked_for_comes_in_quiet_hours(ada: Person) -> None:
    usual = replace(ada, morning=time(5, 45))
    asked = replace(usual, morning_asked_at=at("2027-05-12 12:00"))

    assert quiet_on("sms", usual) == SMS.quiet
    assert quiet_on("sms", asked) == QuietHours(time(20), time(5, 45))


@pytest.mark.parametrize(
    ("morning", "begin"), [(time(21, 30), time(22, 30)), (time(23, 30), time(0, 30))]
)
def test_an_evening_morning_has_an_hour_to_get_through(
    ada: Person, morning: time, begin: time
) -> None:
    asked = replace(ada, morning=morning, morning_asked_at=at("2027-05-12 12:00"))

    assert quiet_on("sms", asked) == QuietHours(begin, time(8))


@pytest.mark.parametrize(
    ("purpose", "waits"), [(Purpose.MORNING, False), (Purpose.CAUTION, False), (Purpose.NEWS, True)]
)
def test_a_morning_wanted_in_quiet_hours_opens_them_for_itself_alone(
    engine: Engine, ada: Person, purpose: Purpose, waits: bool
) -> None:
    """Ada asked for her morning at five; it is half past, and quiet is until six."""
    with writing(engine) as session:
        records = CrewRecords(session, ada.crew_id)
        records.add_address(ada.id, "telegram", "11")
        asked = at("2027-05-11 12:00")
        records.update_person(ada.id, morning=time(5), morning_asked_at=asked)
        now, to = at("2027-05-12 05:30"), Recipient("telegram", "11", ada.id)
        plan(session, "a", purpose, to, OutgoingMessage("11", "4b eggs"), now)
        sent = claim(session, ["telegram"], now)

    assert (sent == []) is waits
