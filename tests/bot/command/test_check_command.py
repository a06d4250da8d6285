"""What may be wrong with the records is named in a line each."""

from datetime import UTC, datetime

import pytest
from sqlalchemy import Engine, insert, text

from bot.channels.channel import IncomingMessage, OutgoingMessage
from bot.conversation.message_handler import MessageHandler
from bot.delivery import inbox, outbox
from bot.delivery.claims import claim
from bot.delivery.intake import Intake
from bot.delivery.outbox import Recipient
from bot.delivery.rules import Purpose
from scheduling.records import integrity
from scheduling.records.engine import writing
from scheduling.records.tables import Base
from tests.bot.command.conftest import Yardbell

NOW = datetime.now(UTC)
PAGE = 4096
"""Bytes of a page of a SQLite file, as it usually is."""


@pytest.fixture
def hill(engine: Engine) -> Engine:
    """Ada's crew with cells in the first box of her yard Hill."""
    for number, what in enumerate(("new yard Hill", "boxes 1-3 of 3", "10 day cells in 1a-c")):
        message = IncomingMessage("phone", "11", str(number), what, NOW, "Ada")
        Intake(engine, MessageHandler()).receive(message, NOW)
    return engine


def checked(yardbell: Yardbell, database: str) -> list[str]:
    """What is wrong, a line each."""
    said = yardbell("--database", database, "check")
    assert (said.code, said.err) == (1, ""), said
    return said.out.splitlines()


def put_entry(engine: Engine, **changed: object) -> None:
    """Write a row past the program's own ways."""
    row = {
        "uid": "odd",
        "crew_id": 1,
        "yard_id": 1,
        "kind": "note",
        "day": NOW.date(),
        "recorded_at": NOW,
        "person_id": 1,
        "channel": "phone",
        "note": "",
    }
    with engine.begin() as connection:
        connection.execute(insert(Base.metadata.tables["entry"]), [row | changed])


def test_of_whole_records_there_is_nothing_to_say(
    yardbell: Yardbell, hill: Engine, database: str
) -> None:
    assert yardbell.good("--database", database, "check") == "all is well\n"


def test_before_anybody_began_there_is_nothing_to_check(yardbell: Yardbell) -> None:
    assert "nobody is in this database" in yardbell("check").complaint


def test_a_row_without_its_parent_is_counted(
    yardbell: Yardbell, hill: Engine, database: str
) -> None:
    orphan = text("INSERT INTO unit (yard_id, box, letter) VALUES (77, 1, 'a')")
    with hill.connect() as connection:
        if hill.dialect.name == "sqlite":
            connection.connection.cursor().execute("PRAGMA foreign_keys = OFF").close()
        with connection.begin():
            if hill.dialect.name == "postgresql":
                connection.execute(text("SET LOCAL session_replication_role = replica"))
            connection.execute(orphan)
        connection.invalidate()

    assert checked(yardbell, database) == ["unit: 1 rows without their parent"]


def test_an_entry_that_cannot_be_read_is_named(
    yardbell: Yardbell, hill: Engine, database: str
) -> None:
    put_entry(hill, kind="honey_stolen")

    (line,) = checked(yardbell, database)
    assert line.startswith("crew 1: entry number 4 cannot be read: ")
    assert "honey_stolen" in line


def test_a_strike_of_nothing_is_named(yardbell: Yardbell, hill: Engine, database: str) -> None:
    put_entry(hill, kind="strike", value="gone")

    assert checked(yardbell, database) == ["crew 1: entry odd strikes gone, which is not there"]


def test_a_calendar_that_cannot_be_worked_out_is_told(
    yardbell: Yardbell, hill: Engine, database: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: object) -> None:
        raise ValueError("a log that nobody foresaw")

    monkeypatch.setattr(integrity, "work_out", fail)

    (line,) = checked(yardbell, database)
    assert line == "crew 1: the calendar cannot be worked out: a log that nobody foresaw"


def test_messages_that_stand_still_are_counted(
    yardbell: Yardbell, engine: Engine, database: str
) -> None:
    early = datetime(2017, 5, 14, 6, 30, tzinfo=UTC)
    to, outgoing = Recipient("phone", "11"), OutgoingMessage("11", "Look for eggs 1")
    with writing(engine) as session:
        inbox.accept(session, IncomingMessage("phone", "11", "1", "begin", early, "Ada"), early)
        outbox.plan(session, "first", Purpose.ANSWER, to, outgoing, early)
        claim(session, ["phone"], early)
        outbox.plan(session, "second", Purpose.ANSWER, to, outgoing, early)
        outbox.plan(session, "just now", Purpose.ANSWER, to, outgoing, datetime.now(UTC))

    assert checked(yardbell, database) == [
        "1 messages in wait to be worked through, the first since 2017-05-14 06:30 UTC",
        "1 messages out wait to be sent, the first since 2017-05-14 06:30 UTC",
        "1 messages out were begun to be sent and not ended, the first since 2017-05-14 06:30 UTC",
    ]


def test_whatever_page_is_damaged_it_is_told_of_in_a_line_each(river: Yardbell) -> None:
    river("check")
    whole = river.database.read_bytes()
    last = len(whole) // PAGE - 1
    for page in {*range(2, last, 11), last}:
        pages = bytearray(whole)
        pages[page * PAGE : (page + 1) * PAGE] = b"\xff" * PAGE
        river.database.write_bytes(pages)

        said = river("check")
        assert (said.code, said.err) == (1, ""), (page, said)
        assert all(line.startswith("the ") for line in said.out.splitlines())
