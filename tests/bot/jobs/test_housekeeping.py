"""The housekeeping tick: what dead workers left is worked through, what is old is forgotten."""

import asyncio
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy import Engine, select, update

from bot.channels.channel import IncomingMessage
from bot.channels.traits import RateLimit
from bot.conversation.message_handler import MessageHandler
from bot.delivery import inbox
from bot.delivery.dispatcher import App, Dispatcher
from bot.delivery.intake import Intake
from bot.delivery.message_tables import InboxRow, OutboxRow, RateLimitRow
from bot.delivery.pruning import KEPT
from bot.delivery.rate_limit import KEPT as RATE_LIMIT_KEPT
from bot.delivery.rate_limit import take_slot
from bot.jobs.job_scheduler import LEFT_LYING, JobScheduler
from scheduling.records.addresses import address_rows
from scheduling.records.crew_records import CrewRecords, found_crew
from scheduling.records.engine import reading, writing
from scheduling.records.weather_asked import claim_yards, keep_answer
from scheduling.records.weather_days import WeatherAskedRow, WeatherDayRow
from tests.scheduling.weather.test_days_to_keep import hours

NOW = datetime(2027, 5, 12, 10, tzinfo=UTC)
WRITTEN = IncomingMessage("phone", "11", "11:1", "begin", NOW, "Ada")
TAPPED = replace(WRITTEN, id="tap of 7: 4b eggs", text="4b eggs", tap="tap-1")
SECOND, DAY = timedelta(seconds=1), timedelta(days=1)


def stored(engine: Engine, message: IncomingMessage, at: datetime) -> None:
    """A message is stored, and its worker dies."""
    with writing(engine) as session:
        assert inbox.accept(session, message, at) is not None


def keep_house(engine: Engine, at: datetime, kept: timedelta = KEPT) -> None:
    app = App(engine, {}, clock=lambda: at, kept=kept)
    job_scheduler = JobScheduler(app, Dispatcher(app, MessageHandler()))
    asyncio.run(job_scheduler.housekeeping())


def known(engine: Engine) -> list[tuple[str, str]]:
    """The messages in that are known, and where they stand."""
    with reading(engine) as session:
        rows = session.scalars(select(InboxRow).order_by(InboxRow.id)).all()
    return [(row.message_id, row.state) for row in rows]


def answers(engine: Engine) -> list[str]:
    with reading(engine) as session:
        return list(session.scalars(select(OutboxRow.key).where(OutboxRow.purpose == "answer")))


def test_what_a_dead_worker_left_is_answered_once_it_has_lain_for_a_minute(
    engine: Engine,
) -> None:
    stored(engine, WRITTEN, NOW)
    keep_house(engine, NOW + LEFT_LYING)
    assert known(engine) == [("11:1", "waiting")]

    keep_house(engine, NOW + LEFT_LYING + SECOND)
    keep_house(engine, NOW + 2 * LEFT_LYING)
    assert known(engine) == [("11:1", "done")]
    assert answers(engine) == ["answer:phone:11:1"]


def test_those_left_are_worked_through_in_the_order_they_came(engine: Engine) -> None:
    for number, text in enumerate(("begin", "new yard River", "boxes 1-2 of 3")):
        stored(engine, replace(WRITTEN, id=str(number), text=text), NOW)
    keep_house(engine, NOW + LEFT_LYING + SECOND)

    with reading(engine) as session:
        texts = session.scalars(select(OutboxRow.text).order_by(OutboxRow.id)).all()
    assert "River" in texts[-1]
    assert len(answers(engine)) == 3


@pytest.mark.parametrize(
    ("message", "kept"), [(WRITTEN, 2 * DAY), (TAPPED, 60 * DAY)], ids=["text", "tap"]
)
def test_a_message_is_known_again_for_two_days_and_a_tap_for_sixty(
    engine: Engine, message: IncomingMessage, kept: timedelta
) -> None:
    Intake(engine, MessageHandler()).receive(message, NOW)
    keep_house(engine, NOW + kept)
    assert known(engine) == [(message.id, "done")]

    keep_house(engine, NOW + kept + SECOND)
    assert known(engine) == []


def test_a_message_that_was_never_worked_through_is_not_forgotten_before_it_is(
    engine: Engine,
) -> None:
    stored(engine, WRITTEN, NOW)
    keep_house(engine, NOW + 90 * DAY)

    assert answers(engine) == ["answer:phone:11:1"]


def test_an_address_that_had_nothing_for_long_is_forgotten(engine: Engine) -> None:
    rate_limit = RateLimit(SECOND / 29, SECOND, "invented")
    with writing(engine) as session:
        take_slot(session, "phone", "11", NOW, rate_limit)

    def addresses() -> list[str]:
        with reading(engine) as session:
            return sorted(session.scalars(select(RateLimitRow.address)))

    keep_house(engine, NOW + RATE_LIMIT_KEPT)
    assert addresses() == ["", "11"]
    keep_house(engine, NOW + RATE_LIMIT_KEPT + 2 * SECOND)
    assert addresses() == []


def test_what_is_done_is_kept_for_as_long_as_the_owner_set(engine: Engine) -> None:
    Intake(engine, MessageHandler()).receive(WRITTEN, NOW)
    with writing(engine) as session:
        for state in ("claimed", "sent"):
            ended = NOW if state == "sent" else None
            session.execute(update(OutboxRow).values(state=state, ended_at=ended))
    keep_house(engine, NOW + 70 * DAY + SECOND)
    assert len(answers(engine)) == 1

    keep_house(engine, NOW + 70 * DAY + SECOND, kept=70 * DAY)
    assert answers(engine) == []


def test_days_of_weather_made_with_older_figures_are_made_anew(engine: Engine) -> None:
    with writing(engine) as session:
        crew, _ = found_crew(session, "Crew", "Ada", "America/Chicago", NOW)
        records = CrewRecords(session, crew.id)
        records.add_yard("River", "America/Chicago", latitude=41.3, longitude=-92.6)
        (river,) = claim_yards(session, NOW, NOW + DAY, 1)
        keep_answer(session, river, hours(24), NOW, NOW + DAY)

    def flight_hours() -> list[float | None]:
        with reading(engine) as session:
            return list(session.scalars(select(WeatherDayRow.flight_hours)))

    made = flight_hours()
    with writing(engine) as session:
        session.execute(update(WeatherAskedRow).values(figures="older"))
        session.execute(update(WeatherDayRow).values(flight_hours=99.0))
    keep_house(engine, NOW)
    assert flight_hours() == made


TEXTED = IncomingMessage("sms", "+12025550123", "SM" + "0" * 32, "begin", NOW)


def test_a_text_is_known_for_ever_but_its_words_are_let_go(engine: Engine) -> None:
    """A carrier's signature holds for ever, so a post of long ago could be sent once more."""
    intake = Intake(engine, MessageHandler())
    intake.receive(TEXTED, NOW)
    for days in (3, 400):
        keep_house(engine, NOW + days * DAY)
        intake.receive(TEXTED, NOW + days * DAY)

    assert known(engine) == []
    assert len(answers(engine)) == 1


def test_a_text_told_again_makes_no_dead_number_alive(engine: Engine) -> None:
    intake = Intake(engine, MessageHandler())
    intake.receive(TEXTED, NOW)
    with writing(engine) as session:
        (row,) = address_rows(session, "sms", TEXTED.address)
        row.unreachable_since = NOW
    intake.receive(TEXTED, NOW + SECOND)

    with reading(engine) as session:
        (row,) = address_rows(session, "sms", TEXTED.address)
        assert row.unreachable_since == NOW
