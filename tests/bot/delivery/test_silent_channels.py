"""When nothing gets through for an hour the owner is told, once, over another channel."""

from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy import Engine, select

from bot.channels.channel import OutgoingMessage, SendOutcome, SendResult
from bot.channels.sms.segments import is_gsm7, segments
from bot.delivery import outbox
from bot.delivery.claims import claim
from bot.delivery.message_tables import OutboxRow
from bot.delivery.outbox import Recipient, complete
from bot.delivery.rules import Purpose
from bot.delivery.silent_channels import silent_since, tell_of_silence
from bot.monitoring import beats_in, write_beats
from bot.wording.alerts import nothing_sent
from scheduling.records.crew_records import CrewRecords, found_crew
from scheduling.records.engine import reading, writing

MORNING = datetime(2027, 5, 12, 11, 30, tzinfo=UTC)
HOUR = timedelta(hours=1)
JUST_UNDER = HOUR - timedelta(seconds=1)


@pytest.fixture
def ada(engine: Engine) -> int:
    """Ada, the owner of a crew in Chicago, is in Telegram and has a telephone; both run."""
    with writing(engine) as session:
        crew, owner = found_crew(session, "Ada's crew", "Ada", "America/Chicago", MORNING)
        records = CrewRecords(session, crew.id)
        records.add_address(owner.id, "telegram", "11")
        records.add_address(owner.id, "phone", "12")
        write_beats(session, {"running:telegram": MORNING, "running:phone": MORNING})
        return owner.id


def put(engine: Engine, person: int, at: datetime, key: str = "morning") -> None:
    """Plan a message over Telegram."""
    to = Recipient("telegram", "11", person)
    with writing(engine) as session:
        outbox.plan(session, key, Purpose.MORNING, to, OutgoingMessage("11", "Look for eggs 1"), at)


def sent(engine: Engine, result: SendResult, at: datetime) -> None:
    """Try to send what is due, with this result."""
    with writing(engine) as session:
        for claimed in claim(session, ["telegram"], at):
            complete(session, claimed, SendOutcome(result), at)
        if result is SendResult.SENT:
            write_beats(session, {"sent:telegram": at})


def silent(engine: Engine, now: datetime) -> dict[str, datetime]:
    with reading(engine) as session:
        return silent_since(session, now, beats_in(session))


def told(engine: Engine, now: datetime, *running: str) -> list[str]:
    with writing(engine) as session:
        return tell_of_silence(session, now, running)


def alerts(engine: Engine) -> list[tuple[str, str, str]]:
    of_silence = select(OutboxRow).where(OutboxRow.purpose == Purpose.ALERT)
    with reading(engine) as session:
        return [(row.channel, row.address, row.text) for row in session.scalars(of_silence)]


def test_a_message_that_waits_an_hour_is_a_silence(engine: Engine, ada: int) -> None:
    put(engine, ada, MORNING)

    assert silent(engine, MORNING + JUST_UNDER) == {}
    assert silent(engine, MORNING + HOUR) == {"telegram": MORNING}


def test_with_nothing_to_send_there_is_no_silence(engine: Engine, ada: int) -> None:
    put(engine, ada, MORNING)
    sent(engine, SendResult.SENT, MORNING)

    assert silent(engine, MORNING + 9 * HOUR) == {}


def test_as_long_as_others_are_served_one_that_waits_is_no_silence(
    engine: Engine, ada: int
) -> None:
    put(engine, ada, MORNING)
    sent(engine, SendResult.LATER, MORNING)
    with writing(engine) as session:
        write_beats(session, {"sent:telegram": MORNING + HOUR / 2})

    assert silent(engine, MORNING + HOUR) == {}
    assert silent(engine, MORNING + 1.5 * HOUR) == {"telegram": MORNING + HOUR / 2}


def test_a_message_whose_hour_has_not_come_is_not_waiting(engine: Engine, ada: int) -> None:
    put(engine, ada, MORNING)
    with writing(engine) as session:
        session.scalars(select(OutboxRow)).one().next_try_at = MORNING + 3 * HOUR

    assert silent(engine, MORNING + 2 * HOUR) == {}
    assert silent(engine, MORNING + 3 * HOUR) == {"telegram": MORNING}


def test_a_channel_that_no_program_runs_is_not_spoken_of(engine: Engine, ada: int) -> None:
    with writing(engine) as session:
        to = Recipient("console", "Ada", ada)
        outbox.plan(
            session, "k", Purpose.MORNING, to, OutgoingMessage("Ada", "Look for eggs 1"), MORNING
        )

    assert silent(engine, MORNING + 2 * HOUR) == {}


def test_an_alert_that_waits_makes_no_alert(engine: Engine, ada: int) -> None:
    put(engine, ada, MORNING)
    assert told(engine, MORNING + HOUR, "telegram", "phone") == ["telegram"]

    assert silent(engine, MORNING + 3 * HOUR) == {"telegram": MORNING}


def test_one_who_blocked_us_is_no_silence(engine: Engine, ada: int) -> None:
    put(engine, ada, MORNING)
    sent(engine, SendResult.UNREACHABLE, MORNING)

    assert silent(engine, MORNING + 2 * HOUR) == {}


def test_messages_that_nobody_knows_of_are_a_silence(engine: Engine, ada: int) -> None:
    put(engine, ada, MORNING)
    sent(engine, SendResult.UNKNOWN, MORNING)
    sent(engine, SendResult.UNKNOWN, MORNING + HOUR / 4)

    assert silent(engine, MORNING + HOUR) == {"telegram": MORNING}


def test_the_owner_is_told_once_over_another_channel(engine: Engine, ada: int) -> None:
    put(engine, ada, MORNING)

    assert told(engine, MORNING + HOUR, "telegram", "phone") == ["telegram"]
    put(engine, ada, MORNING + HOUR, "answer")
    assert told(engine, MORNING + 2 * HOUR, "telegram", "phone") == []

    assert alerts(engine) == [
        (
            "phone",
            "12",
            "No message got through over Telegram since 6:30. "
            "Your crew may wait for one. Type due here for what is due.",
        )
    ]


def test_without_another_channel_only_the_log_tells(
    engine: Engine, ada: int, caplog: pytest.LogCaptureFixture
) -> None:
    put(engine, ada, MORNING)

    assert told(engine, MORNING + HOUR, "telegram") == ["telegram"]
    assert told(engine, MORNING + 2 * HOUR, "telegram") == []

    assert alerts(engine) == []
    assert [record.getMessage() for record in caplog.records] == ["nothing could be sent for long"]


def test_the_next_silence_is_told_of_anew(engine: Engine, ada: int) -> None:
    put(engine, ada, MORNING)
    assert told(engine, MORNING + HOUR, "telegram", "phone") == ["telegram"]
    sent(engine, SendResult.SENT, MORNING + 2 * HOUR)
    assert told(engine, MORNING + 4 * HOUR, "telegram", "phone") == []
    put(engine, ada, MORNING + 5 * HOUR, "answer")
    assert told(engine, MORNING + 6 * HOUR, "telegram", "phone") == ["telegram"]

    assert len(alerts(engine)) == 2


def test_an_owner_who_stopped_is_left_alone(engine: Engine, ada: int) -> None:
    put(engine, ada, MORNING)
    with writing(engine) as session:
        CrewRecords(session, 1).update_person(ada, stopped=True)

    assert told(engine, MORNING + HOUR, "telegram", "phone") == ["telegram"]
    assert alerts(engine) == []


def test_a_silence_of_another_day_names_the_day() -> None:
    text = nothing_sent("telegram", MORNING, "America/Chicago", MORNING + 24 * HOUR)

    assert text.startswith("No message got through over Telegram since yesterday 6:30. ")
    assert is_gsm7(text)
    assert segments(text) == 1
