"""A person is sent all that is kept about them, and is forgotten when they ask for it."""

import itertools
import json
from datetime import timedelta
from typing import Any

import pytest
from sqlalchemy import Engine, MetaData, select

from bot.channels.channel import IncomingMessage, OutgoingMessage, SendOutcome, SendResult
from bot.channels.send_error import SendError
from bot.channels.sms.phone_number import Texting
from bot.channels.sms.segments import segments
from bot.conversation.message_handler import MessageHandler
from bot.conversation.personal_data import data_of
from bot.delivery.intake import Intake
from bot.delivery.message_tables import OutboxRow
from bot.delivery.sms_budget import used_in_month
from scheduling.records.addresses import find_people
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import reading, writing
from tests.bot.conversation.lines import DAY, MILO, NILS, Lines

ADA, MILOS = "770001", "770002"
"""Their chats' numbers."""
NAMES = {ADA: "Ada", MILOS: "Milo Marsh"}
DUE = DAY + timedelta(days=3)


class Chats(Lines):
    """Chats with numbers, whose messages have ids with the chat's number, as Telegram's have."""

    _numbers = itertools.count(1)

    def chat_says(self, chat: str, text: str) -> str:
        """What a chat is answered on the spot."""
        key, before = f"{chat}:{next(self._numbers)}", len(self.chat.shown)
        message = IncomingMessage("telegram", chat, key, text, self.now, NAMES.get(chat, ""))
        self.take_in(message)
        self.deliver()
        return "\n".join(e.text for e in self.chat.shown[before:] if e.address == chat)

    def give_number(self, crew: int, person: int) -> None:
        """Let a person have a phone number beside the chat."""
        with writing(self.engine) as session:
            CrewRecords(session, crew).add_address(person, "sms", MILO)

    def take_in(self, message: IncomingMessage) -> None:
        """Take a message in, and leave its answer to be sent."""
        texting = Texting(running=True, region="US")
        handler = MessageHandler("UTC", texting=texting)
        Intake(self.engine, handler).receive(message, self.now)


@pytest.fixture
def crew(engine: Engine) -> Chats:
    """Ada and Milo share River; Milo is reached by chat and by text, and noted something."""
    lines = Chats(engine)
    for text in ("new yard River", "boxes 1-2 of 3", "zone America/Chicago"):
        lines.chat_says(ADA, text)
    code = lines.chat_says(ADA, "invite").split("join ")[1][:6]
    lines.chat_says(MILOS, f"join {code}")
    with reading(engine) as session:
        (milo,) = find_people(session, "telegram", MILOS)
    lines.chat_says(MILOS, "1a note mild bees")
    lines.chat_says(MILOS, "10 day cells in 1a-c")
    lines.give_number(milo.crew_id, milo.id)
    lines.chat_says(ADA, "due")
    lines.chat_says(ADA, "crew")
    lines.text(MILO, "due")
    lines.later(minutes=1)
    return lines


def everything(engine: Engine) -> str:
    """All rows of all tables, as one text."""
    tables = MetaData()
    tables.reflect(engine)
    with engine.connect() as connection:
        return "\n".join(
            f"{table.name}: {row!r}"
            for table in tables.sorted_tables
            for row in connection.execute(select(table)).mappings()
        )


def data(lines: Chats, chat: str) -> dict[str, Any]:
    lines.chat_says(chat, "my data")
    document = lines.chat.shown[-1].document
    assert document is not None
    assert document.name == "yardbell-my-data.json"
    told: dict[str, Any] = json.loads(document.text)
    return told


def test_all_that_is_kept_is_sent_as_a_file(crew: Chats) -> None:
    told = data(crew, MILOS)

    assert [row["name"] for row in told["person"]] == ["Milo Marsh"]
    assert {row["address"] for row in told["address"]} == {MILOS, MILO}
    noted = [(row["kind"], row["unit"], row["note"]) for row in told["entry"]]
    assert noted[0] == ("note", "1a", "mild bees")
    assert "1a note mild bees" in {row["text"] for row in told["inbox"]}
    assert any(row["text"].startswith("Noted: 1a") for row in told["outbox"])
    assert told["invite"][0]["used_by"] == told["person"][0]["id"]


def test_nothing_of_anybody_else_is_in_it(crew: Chats) -> None:
    told = data(crew, MILOS)

    assert ADA not in json.dumps(told)
    assert all(row["person"] == "Milo Marsh" for row in told["entry"])
    assert all(row["person_id"] == told["person"][0]["id"] for row in told["outbox"])


def test_the_file_is_let_go_of_once_it_was_sent(crew: Chats) -> None:
    data(crew, MILOS)
    with reading(crew.engine) as session:
        assert not any(session.scalars(select(OutboxRow.document)))


def test_by_text_it_comes_in_parts_that_are_asked_for(crew: Chats) -> None:
    first = crew.text(MILO, "my data")
    assert first.startswith("All that is kept about you; more gives the next part")
    parts = [first]
    while "That was all" not in (part := crew.text(MILO, "more")):
        parts.append(part)

    assert len(parts) > 3
    assert all(segments(part) <= 3 for part in parts)
    assert '"Milo Marsh"' in " ".join(parts)


def test_forgetting_is_asked_about_once(crew: Chats) -> None:
    asked = crew.chat_says(MILOS, "forget me")

    assert asked.endswith("without your name. To do it, type: forget me yes")
    assert "Milo Marsh" in everything(crew.engine)
    assert "River" in crew.chat_says(MILOS, "yards")


def test_a_bare_yes_to_the_question_forgets(crew: Chats) -> None:
    crew.chat_says(MILOS, "forget me")

    assert crew.chat_says(MILOS, "yes").startswith("Forgotten.")
    assert "Milo Marsh" not in everything(crew.engine)


def test_whoever_is_forgotten_is_in_no_row_any_more(crew: Chats) -> None:
    with reading(crew.engine) as session:
        (ada,) = find_people(session, "telegram", ADA)
        entries = CrewRecords(session, ada.crew_id).entries()
    assert all(word in everything(crew.engine) for word in ("Milo Marsh", MILOS, MILO))

    assert crew.chat_says(MILOS, "forget me yes").startswith("Forgotten.")
    left = everything(crew.engine)

    for word in ("Milo Marsh", "milo marsh", MILOS, MILO, "note mild", "Noted: 1a"):
        assert word not in left, next(row for row in left.splitlines() if word in row)
    with reading(crew.engine) as session:
        stay = CrewRecords(session, ada.crew_id).entries()
    assert [(e.place, e.kind, e.on) for e in stay] == [(e.place, e.kind, e.on) for e in entries]
    assert {entry.person for entry in stay} == {"somebody"}


def test_whoever_is_forgotten_is_a_stranger(crew: Chats) -> None:
    crew.chat_says(MILOS, "forget me yes")

    assert "Type begin" in crew.chat_says(MILOS, "due")
    assert "not known here" in crew.text(MILO, "due")
    assert "Ada (owner)" in crew.chat_says(ADA, "crew")
    assert "Milo" not in crew.chat_says(ADA, "crew")
    assert "somebody" in crew.chat_says(ADA, "1a")


def test_the_crew_goes_on_as_before(crew: Chats) -> None:
    crew.at(DUE, 15)
    before = crew.chat_says(ADA, "due")
    crew.chat_says(MILOS, "forget me yes")

    assert crew.chat_says(ADA, "due") == before
    assert "Noted: 1a eggs" in crew.chat_says(ADA, "1a eggs")


def test_a_message_that_was_on_its_way_is_emptied_when_it_arrives(crew: Chats) -> None:
    def forgotten_meanwhile(outgoing: OutgoingMessage) -> SendOutcome | None:
        if outgoing.address == MILOS and outgoing.text.startswith(f"{DUE:%a} {DUE.day}"):
            crew.chat.failing = lambda _: None
            message = IncomingMessage("telegram", MILOS, "m", "forget me yes", crew.now)
            crew.take_in(message)
        return None

    crew.chat.failing = forgotten_meanwhile
    crew.at(DUE, 15).morning()
    crew.later(minutes=1)

    left = everything(crew.engine)
    assert MILOS not in left
    assert crew.chat.to(MILOS)[-1].startswith("Forgotten.")


def test_a_month_counts_as_many_segments_as_before(crew: Chats) -> None:
    with reading(crew.engine) as session:
        before = used_in_month(session, crew.now)
    assert before > 0
    crew.chat_says(MILOS, "forget me yes")

    with reading(crew.engine) as session:
        assert used_in_month(session, crew.now) == before


def test_the_owner_of_others_hands_over_first(crew: Chats) -> None:
    assert crew.chat_says(ADA, "forget me yes") == (
        "Ada's crew would have no owner. First make another one, as in: NAME owner"
    )
    crew.chat_says(ADA, "Milo Marsh owner")
    assert crew.chat_says(ADA, "forget me yes").startswith("Forgotten.")

    left = everything(crew.engine)
    assert ADA not in left
    assert "Ada" not in left
    assert "Milo Marsh's crew" in left


def test_of_whoever_was_alone_no_place_is_kept_either(engine: Engine) -> None:
    lines = Chats(engine)
    for text in ("new yard River", "boxes 1-2 of 3", "location 41.3, -92.6", "1a eggs"):
        lines.chat_says(ADA, text)
    assert lines.chat_says(ADA, "forget me yes").startswith("Forgotten.")

    left = everything(engine)
    assert "41.3" not in left
    assert "'kind': 'eggs'" in left
    assert ADA not in left


def test_whoever_wanted_silence_is_asked_by_nobody_even_then(crew: Chats) -> None:
    crew.text(MILO, "stop")
    crew.chat_says(MILOS, "forget me yes")

    assert "may not text that number" in crew.chat_says(ADA, "invite Pat 202 555 0123")


def test_a_yes_that_comes_late_joins_nobody(crew: Chats) -> None:
    crew.chat_says(MILOS, "number 202 555 0124")
    crew.chat_says(MILOS, "forget me yes")

    assert "not known here" in crew.text(NILS, "yes")


def test_what_is_kept_is_complete(crew: Chats) -> None:
    """Whatever row of the database has a column for a person or an address is in the file."""
    with reading(crew.engine) as session:
        people = find_people(session, "telegram", MILOS)
        told = json.loads(data_of(session, people))
    tables = MetaData()
    tables.reflect(crew.engine)
    with crew.engine.connect() as connection:
        for table in tables.sorted_tables:
            if table.name == "entry":
                continue
            for row in connection.execute(select(table)).mappings():
                mine = people[0].id in (row.get("person_id"), row.get("made_by"))
                if mine or row.get("address") in (MILOS, MILO):
                    assert table.name in told, table.name


def test_a_file_that_could_not_be_sent_waits_with_its_message(crew: Chats) -> None:
    crew.chat.failing = lambda _: SendOutcome(SendResult.LATER, error=SendError.CARRIER_FAILED)
    crew.chat_says(MILOS, "my data")
    crew.chat.failing = lambda _: None
    crew.later(minutes=1)

    assert crew.chat.shown[-1].document is not None
