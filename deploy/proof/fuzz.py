"""Generated texts through parser and conversation: none may raise, misrecord or leave its crew."""

import time
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field
from datetime import UTC, datetime
from multiprocessing import get_context
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

from sqlalchemy import Engine, event, func, select
from sqlalchemy.orm import Session

from bot.channels.channel import IncomingMessage
from bot.conversation.conversation_state import ConversationState
from bot.conversation.respond import respond
from bot.conversation.turn import Turn
from bot.reading.reader import read
from bot.reading.situation import Situation, YardUnits
from bot.wording.questions import ask
from deploy.proof.texts import half_sense, nonsense
from scheduling.places import UnitName
from scheduling.records.crew_records import CrewRecords, found_crew
from scheduling.records.engine import open_engine, writing
from scheduling.records.migrate import migrate
from scheduling.records.tables import Base, EntryRow

NOW = datetime(2027, 5, 12, 12, tzinfo=UTC)
YARDS = ("River", "Ridge")
NONSENSE = 0.9
"""The share of texts that must record nothing; the rest may."""

_TO_THE_DESK = 0.03
"""The share of texts that go on to the conversation though they say nothing to it."""

_AT_ONCE = 20
"""Texts of one transaction, which is taken back after it was looked into."""

_ENOUGH = 100
"""Faults after which no more are looked for."""


@dataclass
class Fuzzed:
    """What came of some texts.

    Attributes:
        texts: how many were read, and every question that came of them worded.
        in_conversation: how many of them went over the conversation too, on a real database.
        entries: how many entries came of those that may mean something.
        seconds: how long it took.
        faults: what went wrong, with the text that did it.
    """

    texts: int = 0
    in_conversation: int = 0
    entries: int = 0
    seconds: float = 0.0
    faults: list[str] = field(default_factory=list)

    def add(self, other: "Fuzzed") -> None:
        """Count what another process found in."""
        self.texts += other.texts
        self.in_conversation += other.in_conversation
        self.entries += other.entries
        self.faults += other.faults

    def __str__(self) -> str:
        """What was found, in a line."""
        return (
            f"{self.texts:,} texts read, {self.in_conversation:,} of them at the conversation, "
            f"{self.entries:,} entries of half sense, {len(self.faults)} faults, "
            f"{self.texts / self.seconds:,.0f} texts/s"
        )


class Yard:
    """Two crews in one database; everything is said by Ada of the first.

    What a text says is read every time. To the conversation go all texts that it would do something
    for, and a share of the others, since those all end in the same words.
    """

    def __init__(self, engine: Engine) -> None:
        self.engine = engine
        self.crew, self.ada = _crew(engine, "Ada")
        _crew(engine, "Milo")
        units = tuple(UnitName(box, letter) for box in range(1, 13) for letter in "abc")
        yards = tuple(YardUnits(name, units) for name in YARDS)
        self.situation = Situation(NOW.date(), yards, YARDS[0])

    def say(self, text: str, found: Fuzzed, may_mean: bool) -> bool:
        """Read a text; gives whether the conversation has something to do for it."""
        found.texts += 1
        try:
            reading = read(text, self.situation)
            for question in reading.questions:
                if not ask(question).strip():
                    found.faults.append(f"asked nothing about {text!r}")
        except Exception as error:  # noqa: BLE001 - that there is none is what is looked for
            found.faults.append(f"{type(error).__name__}: {error} of {text!r}")
            return True
        if reading.findings and not may_mean:
            found.faults.append(f"found {reading.findings} in {text!r}")
        return bool(reading.findings or reading.command)

    def over_the_desk(self, texts: Sequence[str], found: Fuzzed, may_mean: bool) -> None:
        """Say some texts one after the other, look at what came of them, and take all back."""
        with Session(self.engine, expire_on_commit=False) as session:
            others, entries = _of_other_crews(session, self.crew), _entries(session)
            for text in texts:
                self._answer(session, text, found)
            new = _entries(session) - entries
            if _of_other_crews(session, self.crew) != others:
                found.faults.append(f"wrote into another crew: {list(texts)!r}")
            if new and not may_mean:
                found.faults.append(f"{new} entries of nonsense: {list(texts)!r}")
            session.rollback()
        found.in_conversation += len(texts)
        found.entries += new

    def _answer(self, session: Session, text: str, found: Fuzzed) -> None:
        try:
            with session.begin_nested():
                if not respond(self._turn(session, text)).text.strip():
                    found.faults.append(f"no answer to {text!r}")
        except Exception as error:  # noqa: BLE001 - as above
            found.faults.append(f"{type(error).__name__}: {error} of {text!r} at the conversation")

    def _turn(self, session: Session, text: str) -> Turn:
        records = CrewRecords(session, self.crew)
        message = IncomingMessage("phone", "Ada", "1", text, NOW, "Ada")
        state = ConversationState(yard_on=NOW.date())
        return Turn(
            session, records, records.person(self.ada), message, NOW, state, lambda _code: None
        )


def fuzzed(seed: int, count: int, folder: Path) -> Fuzzed:
    """Say ``count`` texts on a database of its own in ``folder``."""
    engine = open_engine(f"sqlite:///{folder / f'fuzz{seed}.sqlite'}")
    event.listen(engine, "connect", lambda raw, _: raw.execute("PRAGMA synchronous = OFF").close())
    migrate(engine)
    yard, random, found = Yard(engine), Random(seed), Fuzzed()  # noqa: S311 - no secret
    for_desk: dict[bool, list[str]] = {True: [], False: []}
    while found.texts < count and len(found.faults) < _ENOUGH:
        may_mean = random.random() > NONSENSE
        # The inbox keeps no NUL, which PostgreSQL could not store.
        text = (half_sense if may_mean else nonsense)(random).replace("\0", "")
        if yard.say(text, found, may_mean) or random.random() < _TO_THE_DESK:
            for_desk[may_mean].append(text)
        if len(for_desk[may_mean]) == _AT_ONCE:
            yard.over_the_desk(for_desk[may_mean], found, may_mean)
            for_desk[may_mean] = []
    for may_mean, texts in for_desk.items():
        yard.over_the_desk(texts, found, may_mean)
    engine.dispose()
    return found


def fuzzed_on_all_cores(count: int, seed: int, cores: int = 2) -> Iterator[Fuzzed]:
    """Give what was found so far, after each part of the texts."""
    part = max(1, min(5_000, count // (2 * cores)))
    sizes = [part] * (count // part) + ([count % part] if count % part else [])
    total, began = Fuzzed(), time.monotonic()
    with TemporaryDirectory() as folder, ProcessPoolExecutor(cores, get_context("spawn")) as pool:
        begun = [pool.submit(fuzzed, seed + n, size, Path(folder)) for n, size in enumerate(sizes)]
        for one in begun:
            total.add(one.result())
            total.seconds = time.monotonic() - began
            yield total


def _crew(engine: Engine, name: str) -> tuple[int, int]:
    with writing(engine) as session:
        crew, person = found_crew(session, f"{name}'s crew", name, "UTC", NOW)
        records = CrewRecords(session, crew.id)
        records.add_address(person.id, "phone", name)
        for yard in YARDS:
            records.add_yard(yard, "UTC")
            records.add_units(yard, [UnitName(b, letter) for b in range(1, 13) for letter in "abc"])
        records.update_person(person.id, yard="River")
    return crew.id, person.id


def _entries(session: Session) -> int:
    return session.scalar(select(func.count()).select_from(EntryRow)) or 0


def _of_other_crews(session: Session, crew_id: int) -> list[tuple[object, ...]]:
    """Every row of a table that names its crew, but those of one crew."""
    session.flush()
    rows: list[tuple[object, ...]] = []
    for table in Base.metadata.sorted_tables:
        if "crew_id" in table.c:
            found = session.execute(select(table).where(table.c.crew_id != crew_id))
            rows += [(table.name, *row) for row in found]
    return rows
