"""How the program stands is read from the database, for a person and for a machine."""

import json
from datetime import UTC, datetime, time, timedelta

import pytest
from sqlalchemy import Engine, select

from bot.channels.channel import IncomingMessage, OutgoingMessage
from bot.channels.outcome import failed
from bot.channels.send_error import SendError
from bot.command.status import for_machine, for_person
from bot.delivery import inbox, outbox
from bot.delivery.claims import claim
from bot.delivery.message_tables import OutboxRow
from bot.delivery.outbox import Recipient, complete
from bot.delivery.outcomes import apply_outcome
from bot.delivery.rules import OutboxState, Purpose
from bot.monitoring import founding_name, write_beats
from bot.version import version
from bot.web.program_status import Status, status_of
from scheduling.records.crew_records import CrewRecords, found_crew
from scheduling.records.engine import reading, writing
from scheduling.records.founding_codes import make_founding_code
from scheduling.records.tables import Role
from scheduling.records.weather_asked import claim_yards, keep_answer
from scheduling.records.wrong_codes import note_wrong_code

NOW = datetime(2027, 5, 12, 12, 0, tzinfo=UTC)
SECOND, HOUR = timedelta(seconds=1), timedelta(hours=1)


@pytest.fixture
def running(engine: Engine) -> Engine:
    """Ada, whose next morning is tomorrow's, and Milo, whose was due an hour ago; two yards."""
    with writing(engine) as session:
        crew, ada = found_crew(session, "Ada's crew", "Ada", "America/Chicago", NOW)
        records = CrewRecords(session, crew.id)
        milo = records.add_person(name="Milo", role=Role.KEEPER, zone="America/New_York", now=NOW)
        records.update_person(ada.id, morning=time(6, 30), next_morning_at=NOW + 23.5 * HOUR)
        records.update_person(milo.id, next_morning_at=NOW - HOUR)
        for name in ("River", "Ridge", "Home"):
            records.add_yard(name, "America/Chicago")
        records.set_location("River", 41.3, -92.6)
        (yard,) = claim_yards(session, NOW - 2 * HOUR, NOW, 1)
        keep_answer(session, yard, (), NOW - 2 * HOUR, NOW + HOUR)
        records.set_location("Ridge", 35.2, -85.3)
        to, outgoing = Recipient("telegram", "11", ada.id), OutgoingMessage("11", "Look for eggs 1")
        outbox.plan(session, "a", Purpose.ANSWER, to, outgoing, NOW - 5 * SECOND)
        inbox.accept(session, IncomingMessage("telegram", "11", "1", "due", NOW, "Ada"), NOW)
        beats = {"start": NOW - 72 * HOUR, "tick:outbox": NOW - SECOND, "poll:telegram": NOW}
        write_beats(session, beats)
    return engine


def status(engine: Engine) -> Status:
    with reading(engine) as session:
        return status_of(session, NOW)


def test_a_person_reads_who_is_next_what_waits_and_what_lives(running: Engine) -> None:
    lines = list(for_person(status(running), "2027a in the package tzdata", "0007", "sqlite"))

    assert lines == [
        "running    yes, since 3 days ago",
        "database   sqlite, schema 0007",
        f"version    {version()}",
        "people     2, 1 mornings overdue",
        "new crews  unknown till a program runs, 0 codes open",
        "  next     Milo Wed 12 May 07:00 America/New_York (overdue)",
        "  next     Ada Thu 13 May 06:30 America/Chicago",
        "out        1 planned; the oldest waits since 5 s ago",
        "  in 24 h  none",
        "in         1 waiting",
        "last poll  telegram 0 s ago",
        "last tick  outbox 1 s ago",
        "last sent  never",
        "weather    Ridge never, River 2 h ago",
        "time zones 2027a in the package tzdata",
    ]


def test_a_machine_reads_the_same(running: Engine) -> None:
    found = for_machine(status(running), "2027a", "0007", "sqlite")

    assert json.loads(json.dumps(found)) == found
    assert (found["now"], found["running"], found["overdue"]) == ("2027-05-12T12:00:00Z", True, 1)
    assert found["due_next"] == [
        {"person": 2, "at": "2027-05-12T11:00:00Z"},
        {"person": 1, "at": "2027-05-13T11:30:00Z"},
    ]
    assert found["outbox"] == {
        "planned": 1,
        "claimed": 0,
        "sent": 0,
        "failed": 0,
        "unknown": 0,
        "expired": 0,
    }
    assert found["oldest_waiting"] == "2027-05-12T11:59:55Z"
    assert found["weather"] == [
        {"crew": 1, "yard": "Ridge", "answered_at": None, "failures": 0},
        {"crew": 1, "yard": "River", "answered_at": "2027-05-12T10:00:00Z", "failures": 0},
    ]


def test_what_went_out_is_counted_for_a_day(running: Engine) -> None:
    with writing(running) as session:
        row = session.scalars(select(OutboxRow)).one()
        row.state = OutboxState.CLAIMED
        session.flush()
        row.state, row.ended_at = OutboxState.SENT, NOW - 24 * HOUR + SECOND
    assert status(running).outbox["sent"] == 1
    lines = list(for_person(status(running), "2027a", "0007", "sqlite"))
    assert lines[7:9] == ["out        none", "  in 24 h  1 sent"]

    with reading(running) as session:
        assert status_of(session, NOW + SECOND).outbox["sent"] == 0


def test_a_program_that_no_longer_ticks_is_not_running(running: Engine) -> None:
    with reading(running) as session:
        later = status_of(session, NOW + HOUR)
    lines = list(for_person(later, "2027a", "0007", "sqlite"))

    assert lines[0] == "running    no, last tick 60 min ago"


@pytest.mark.parametrize("sign", ["start", "tick:weather", "running:telegram"])
def test_a_program_that_began_seconds_ago_is_running(engine: Engine, sign: str) -> None:
    with writing(engine) as session:
        write_beats(session, {"start": NOW - 8 * SECOND, sign: NOW - 8 * SECOND})
    lines = list(for_person(status(engine), "2027a", "0007", "sqlite"))

    assert lines[0] == "running    yes, since 8 s ago"


def refuse(engine: Engine, person: int, error: SendError, at: datetime) -> None:
    """Plan a message, which the carrier refuses for good."""
    with writing(engine) as session:
        # Ada's other chat, since something waits for her in the first.
        to = Recipient("telegram", {1: "21", 2: "12"}[person], person)
        outgoing = OutgoingMessage(to.address, "No eggs due.")
        outbox.plan(session, f"to {person}", Purpose.ANSWER, to, outgoing, at)
        (claimed,) = claim(session, ["telegram"], at, only_to=to.address)
        row = complete(session, claimed, failed(error), at)
        assert row is not None
        apply_outcome(session, row, claimed, failed(error), at)


def test_who_was_not_reached_is_told_and_why(running: Engine) -> None:
    with writing(running) as session:
        CrewRecords(session, 1).add_address(2, "telegram", "12")
    refuse(running, 2, SendError.BLOCKED, NOW - 10 * 24 * HOUR)
    refuse(running, 1, SendError.REFUSED, NOW - 3 * HOUR)
    told = status(running)

    assert [line for line in for_person(told, "", "", "") if "not to" in line] == [
        "  not to   Ada over telegram, 3 h ago: the carrier refused the message",
        "  not to   Milo over telegram, 10 days ago: the chat is blocked",
    ]
    assert for_machine(told, "", "", "")["unreached"] == [
        {"person": 1, "channel": "telegram", "since": "2027-05-12T09:00:00Z", "why": "refused"},
        {"person": 2, "channel": "telegram", "since": "2027-05-02T12:00:00Z", "why": "blocked"},
    ]


def test_a_message_that_failed_long_ago_is_not_told_of(running: Engine) -> None:
    refuse(running, 1, SendError.REFUSED, NOW - 8 * 24 * HOUR)

    assert status(running).unreached == ()


def test_a_channel_that_takes_nothing_is_shouted(running: Engine) -> None:
    with writing(running) as session:
        write_beats(session, {"running:telegram": NOW})
    with reading(running) as session:
        later = status_of(session, NOW + 3 * HOUR)

    shouted = "SILENT     nothing gets through over telegram since 3 h ago"
    assert shouted in list(for_person(later, "2027a", "0007", "sqlite"))
    assert for_machine(later, "2027a", "0007", "sqlite")["silent"] == {
        "telegram": "2027-05-12T11:59:55Z"
    }


def test_of_many_yards_the_longest_unanswered_are_shown(engine: Engine) -> None:
    with writing(engine) as session:
        crew, _ = found_crew(session, "Ada's crew", "Ada", "America/Chicago", NOW)
        records = CrewRecords(session, crew.id)
        for number in range(12):
            records.add_yard(f"Yard {number}", "America/Chicago")
            records.set_location(f"Yard {number}", 35.0, -85.0)
    (line,) = [line for line in for_person(status(engine), "", "", "") if "weather" in line]

    assert line.count("never") == 10
    assert line.endswith(", and 2 yards with newer")


def test_what_waits_for_the_end_of_quiet_hours_is_told_apart(running: Engine) -> None:
    with writing(running) as session:
        to, outgoing = Recipient("telegram", "11", 1), OutgoingMessage("11", "Milo has joined.")
        outbox.plan(session, "n", Purpose.NEWS, to, outgoing, NOW, quiet_until=NOW + HOUR)

    lines = list(for_person(status(running), "2027a in the package tzdata", "0007", "sqlite"))

    assert (
        "out        2 planned, 1 of them till quiet hours end; the oldest waits since 5 s ago"
        in lines
    )
    assert for_machine(status(running), "", "", "")["waiting_for_quiet_hours"] == 1


def test_who_may_found_a_crew_is_told_as_the_program_was_started_last(running: Engine) -> None:
    with writing(running) as session:
        write_beats(session, {founding_name("anybody"): NOW - HOUR, founding_name("invited"): NOW})
        make_founding_code(session, NOW)
        note_wrong_code(session, "telegram", "11", NOW, looked_at=True)

    shown = "new crews  invited, 1 codes open; 1 wrong codes tried within a day"
    assert shown in list(for_person(status(running), "", "", ""))
    found = for_machine(status(running), "", "", "")
    assert found["crews_founded_by"] == "invited"
    assert (found["founding_codes"], found["wrong_codes"]) == (1, 1)
