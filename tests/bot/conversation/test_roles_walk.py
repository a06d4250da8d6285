"""Every command, every kind of entry and every button, said in every role and from outside."""

import re
import shutil
from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path

import pytest
from sqlalchemy import MetaData

from bot.command.whose import situation_for
from bot.conversation.permissions import ACTS, MAY
from bot.reading.reader import read
from bot.reading.result import CommandName, Reading
from deploy.standins.databases import copied_file
from scheduling.entry_kinds import EntryKind
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import open_engine, reading, writing
from scheduling.records.tables import Role
from tests.bot.conversation.lines import DAY, Lines
from tests.bot.conversation.role_walk import (
    COMMANDS,
    NOTES,
    RANK,
    REFUSED,
    CrewRows,
    Rows,
)

MEMBERS = {"Ada": Role.OWNER, "Milo": Role.KEEPER, "Wren": Role.WATCHER}
OUTSIDE = ("Bea", "Ned")
"""Bea has a crew of her own, in which the same boxes stand; Ned has none."""
SECRETS = {"Orchard", "Ada", "Milo", "Wren"}
DUE = DAY + timedelta(days=3)


def join(lines: Lines, name: str, role: Role) -> None:
    code = lines.say("Ada", "invite").split("join ")[1][:6]
    lines.say(name, f"join {code}")
    person = lines.person("telegram", name)
    assert person is not None
    with writing(lines.engine) as session:
        CrewRecords(session, person.crew_id).update_person(person.id, role=role)


@pytest.fixture(scope="module")
def made(made_once: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A file with Ada's crew, in which everybody but the watcher noted something, and Bea's."""
    folder = tmp_path_factory.mktemp("roles")
    engine = open_engine(copied_file(made_once, folder))
    lines = Lines(engine)
    for text in ("new yard Orchard", "boxes 1-6 of 3", "zone America/Chicago"):
        lines.say("Ada", text)
    for name in ("Milo", "Wren"):
        join(lines, name, MEMBERS[name])
    lines.say("Ada", "10 day cells in 1a-c, 3ab caged queen, trap in 1a-c")
    lines.say("Milo", "4a virgin, fed 4a 1 quart")
    for text in ("new yard Hill", "boxes 1-6 of 3", "10 day cells in 1a-c"):
        lines.say("Bea", text)
    file = Path(str(engine.url.database))
    engine.dispose()
    return file


class Walk:
    """Says one text after the other, each on the same crew: a changed file is copied anew."""

    def __init__(self, made: Path, folder: Path) -> None:
        self._made, self._file = made, folder / "walk.sqlite"
        self._tables = MetaData()
        self._open()
        self._tables.reflect(self.lines.engine)
        self.before = self.rows.read()

    def _open(self) -> None:
        shutil.copy(self._made, self._file)
        self.lines = Lines(open_engine(f"sqlite:///{self._file}"))
        self.lines.at(DUE, 15)
        ada = self.lines.person("telegram", "Ada")
        assert ada is not None
        self.rows = CrewRows(self.lines.engine, ada.crew_id, self._tables)

    def number(self, who: str) -> int:
        """The number of a person in the database."""
        person = self.lines.person("telegram", who)
        return 0 if person is None else person.id

    def say(self, who: str, text: str) -> tuple[str, Rows]:
        """The answer, and the crew's rows after it."""
        before = len(self.lines.chat.shown)
        answer, after = self.lines.say(who, text), self.rows.read()
        files = [each.document.text for each in self.lines.chat.shown[before:] if each.document]
        return "\n".join([answer, *files]), after

    def anew(self) -> None:
        """Go on with the crew as it was made."""
        self.close()
        self._open()

    def close(self) -> None:
        """Let go of the file."""
        self.lines.engine.dispose()


@pytest.fixture
def walk(made: Path, tmp_path: Path) -> Iterator[Walk]:
    walk = Walk(made, tmp_path)
    yield walk
    walk.close()


def buttons(walk: Walk) -> set[str]:
    """The texts of all buttons that this crew's people have under their messages by now."""
    walk.lines.morning()
    for who in MEMBERS:
        for text in ("due", "week", "2a eggs"):
            walk.lines.say(who, text)
    texts = {
        button.text
        for letter in walk.lines.chat.shown
        if letter.address in MEMBERS
        for row in letter.buttons
        for button in row
    }
    walk.anew()
    return texts


def sayings(walk: Walk) -> list[tuple[str, Role]]:
    """Everything that is tried, with the least role that may say it."""
    typed = [(text, role) for role, texts in COMMANDS.items() for text in texts]
    noted = [(text, Role.KEEPER) for text in NOTES.values()]
    return typed + noted + [(text, Role.KEEPER) for text in sorted(buttons(walk))]


def leaks(walk: Walk, who: str, text: str, least: Role) -> list[str]:
    """What a member could do that their role forbids, or could not do that it allows."""
    role, me = MEMBERS[who], walk.number(who)
    answer, after = walk.say(who, text)
    may, refused = RANK[role] >= RANK[least], answer.startswith(REFUSED)
    wrong = []
    if may == refused:
        wrong.append(f"{who} ({role}) said {text!r}: {answer}")
    before = walk.before
    if role is not Role.OWNER:
        before, after = before.others_than(me), after.others_than(me)
    if role is Role.KEEPER:
        before, after = before.without("entry", "unit"), after.without("entry", "unit")
    if role is not Role.OWNER and before != after:
        wrong.append(f"{who} ({role}) changed something by {text!r}")
    if refused and walk.before.others_than(me) != walk.rows.read().others_than(me):
        wrong.append(f"{who} ({role}) was refused {text!r}, and something changed")
    return wrong


def of_outsiders(walk: Walk, who: str, text: str) -> list[str]:
    """What somebody outside the crew could change or read."""
    answer, after = walk.say(who, text)
    wrong = [] if after == walk.before else [f"{who} changed something by {text!r}"]
    read_out = set(re.findall(r"\w+", answer)) & SECRETS - set(re.findall(r"\w+", text.title()))
    return wrong + [f"{who} read {word} by {text!r}" for word in read_out]


@pytest.mark.parametrize("who", [*MEMBERS, *OUTSIDE])
def test_nobody_does_or_reads_more_than_their_role_allows(walk: Walk, who: str) -> None:
    tried, wrong = sayings(walk), []
    assert len(tried) > 80
    for text, least in tried:
        wrong += leaks(walk, who, text, least) if who in MEMBERS else of_outsiders(walk, who, text)
        walk.anew()
    assert wrong == []


def readings(walk: Walk, texts: list[str]) -> list[Reading]:
    with reading(walk.lines.engine) as session:
        situation = situation_for(session, "Ada", DUE, walk.lines.now)
        return [read(text, situation) for text in texts]


def test_the_walk_tries_every_command_and_every_kind_of_entry(walk: Walk) -> None:
    typed = [text for texts in COMMANDS.values() for text in texts]
    commands = {reading.command.name for reading in readings(walk, typed) if reading.command}
    noted = readings(walk, list(NOTES.values()))

    # A yes is one only where something was asked.
    assert commands == set(CommandName) - {CommandName.YES}
    assert [
        kind
        for kind, said in zip(NOTES, noted, strict=True)
        if kind not in {finding.kind for finding in said.findings}
    ] == []
    assert set(NOTES) == set(EntryKind) - {EntryKind.STRIKE, EntryKind.MOVED}


def test_each_command_and_each_role_stands_in_the_table() -> None:
    assert set(ACTS) == set(CommandName)
    assert set(MAY) == set(Role)


def test_who_may_not_note_any_more_corrects_nothing_by_an_edit(walk: Walk) -> None:
    walk.lines.say("Milo", "5a eggs")
    milo = walk.lines.person("telegram", "Milo")
    assert milo is not None
    with writing(walk.lines.engine) as session:
        records = CrewRecords(session, milo.crew_id)
        records.update_person(milo.id, role=Role.WATCHER)
        said = records.last_said(milo.id)[0].message
    before = walk.rows.read()

    for edited in ("5b eggs", "hello there"):
        assert walk.lines.edit("Milo", edited, said).startswith("You may look but not note")
    assert walk.rows.read() == before


def test_a_new_yard_is_no_answer_to_the_question_which_yard_was_meant(walk: Walk) -> None:
    walk.lines.say("Ada", "new yard Ridge")
    walk.lines.say("Ada", "boxes 1-2 of 3")
    walk.lines.at(DUE + timedelta(days=1), 15)
    assert "which yard, Orchard or Ridge" in walk.lines.say("Milo", "1a eggs")
    before = walk.rows.read()

    assert walk.lines.say("Milo", "new yard Hollow").startswith("Only Ada can do that")
    assert walk.rows.read() == before
