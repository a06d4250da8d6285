"""The demo: an invented crew's morning, with the terminal as their phones."""

import os
import re
import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from functools import partial
from pathlib import Path
from zoneinfo import ZoneInfo

import click
from sqlalchemy import Engine

from bot.command.call import InputError
from bot.command.machine_clock import Clock
from bot.command.screen import show
from bot.command.terminal import Terminal, at_terminal, know_at_terminal, lines_typed, log_in_lines
from bot.settings.settings import data_folder
from bot.wording.help import demo_played, demo_welcome
from scheduling.records.crew_records import CrewRecords, found_crew
from scheduling.records.csv_file import read_file
from scheduling.records.engine import open_engine, writing
from scheduling.records.imports import import_entries
from scheduling.records.migrate import migrate, newest_version

SEASON = Path(__file__).with_name("demo_season")
"""The invented crew's log and day, which are data of this package."""

DAY = date(2027, 5, 12)
MORNING = time(6, 30)
ZONE = "America/New_York"
OWNER, PARTNER = "Ada", "Milo"

_LINE = re.compile(r"(?P<at>\d\d:\d\d) (?:(?P<who>\w+): (?P<text>.+)|morning)")
_SPEAKS_AS = re.compile(r"(?P<who>\w+):\s*(?P<text>.+)")


@dataclass(frozen=True)
class Line:
    """One moment of the scripted day: somebody writes, or (``text`` None) the morning rings."""

    at: datetime
    who: str = ""
    text: str | None = None


@click.command("demo")
def demo_command() -> None:
    """Play an invented morning; at a terminal, go on with your own replies.

    The demo has a database of its own, made anew each time; your records are not touched.
    """
    log_in_lines()
    engine = _season(data_folder() / "demo.sqlite")
    try:
        _converse(engine) if at_terminal() else _play(engine)
    finally:
        engine.dispose()


def script(file: Path) -> Iterator[Line]:
    """The scripted day, line by line; ``#`` begins a remark.

    Raises:
        InputError: a line is not of the form "08:10 Ada: 4b eggs" or "06:30 morning".
    """
    for text in file.read_text(encoding="utf-8").splitlines():
        if not text.strip() or text.startswith("#"):
            continue
        found = _LINE.fullmatch(text.strip())
        if found is None:
            raise InputError(f"{file.name} has a line that is not understood: {text}")
        at = datetime.combine(DAY, time.fromisoformat(found["at"]), tzinfo=ZoneInfo(ZONE))
        yield Line(at.astimezone(UTC), found["who"] or "", found["text"])


def _season(file: Path) -> Engine:
    """A new database with the invented season in it."""
    engine = _empty(file)
    eve = datetime.combine(DAY, time(5), tzinfo=ZoneInfo(ZONE)).astimezone(UTC)
    with writing(engine) as session:
        crew, _ = found_crew(session, "Demo", OWNER, ZONE, eve)
        records = CrewRecords(session, crew.id)
        import_entries(records, read_file(SEASON / "season.csv", eve), eve)
        for person in records.people():
            records.update_person(person.id, cautioned_on=date(DAY.year, 3, 1))
    for name in (OWNER, PARTNER):
        know_at_terminal(engine, name, eve)
    return engine


def _empty(file: Path) -> Engine:
    """A new database with its tables, which are made once for each schema and then copied."""
    for part in ("", "-wal", "-shm"):
        file.with_name(file.name + part).unlink(missing_ok=True)
    tables = file.with_name(f"{file.stem}-{newest_version()}.sqlite")
    if not tables.exists():
        making = file.with_name(f"{tables.name}.{os.getpid()}")
        engine = open_engine(f"sqlite:///{making}")
        migrate(engine)
        engine.dispose()
        making.replace(tables)
    shutil.copy(tables, file)
    return open_engine(f"sqlite:///{file}")


def _play(engine: Engine) -> None:
    """The whole scripted day, printed."""
    for line in script(SEASON / "day.txt"):
        terminal = Terminal(engine, partial(_same, line.at))
        if line.text is None:
            terminal.morning()
        else:
            show(f"{line.who} > {line.text}")
            terminal.say(line.who, line.text)
    show(demo_played())


def _same(instant: datetime) -> datetime:
    return instant


def _converse(engine: Engine) -> None:
    """The morning rings, then the terminal answers whatever is typed."""
    show(demo_welcome(OWNER, PARTNER))
    terminal = Terminal(engine, Clock(DAY, MORNING, ZONE))
    terminal.morning()
    for line in lines_typed(f"{OWNER} > "):
        spoken = _SPEAKS_AS.fullmatch(line)
        if spoken is not None and spoken["who"].casefold() == PARTNER.casefold():
            terminal.say(PARTNER, spoken["text"])
        else:
            terminal.say(OWNER, line)
