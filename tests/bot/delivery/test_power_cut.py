"""A message that its carrier may forget is on the disk, so that a power cut takes none away."""

import subprocess
import sys
from pathlib import Path

from sqlalchemy import func, select

from deploy.standins.databases import copied_file
from deploy.standins.program_beside import ROOT
from scheduling.records.engine import open_engine, reading
from scheduling.records.tables import CrewRow, YardRow

TAKES_TWO_MESSAGES = """
import shutil, sys
from datetime import UTC, datetime
from pathlib import Path
from sqlalchemy.exc import OperationalError
from bot.channels.console import typed
from bot.conversation.message_handler import MessageHandler
from bot.delivery.intake import Intake
from deploy.standins.system_call_filter import without_disk
from scheduling.records.engine import open_engine

file, now = Path(sys.argv[1]), datetime(2027, 5, 12, 6, tzinfo=UTC)
intake = Intake(open_engine(f"sqlite:///{file}"), MessageHandler())

def written():
    return [Path(f"{file}{end}").stat().st_size for end in ("", "-wal")]

def take(text):
    try:
        intake.receive(typed("Ada", text, now), now)
    except OperationalError as error:
        return str(error.orig)
    return "confirmed"

print(take("begin"), *written())
if "no disk" in sys.argv:
    without_disk()
print(take("new yard River"), *written())
for end in ("", "-wal"):
    shutil.copy(f"{file}{end}", f"{file}.cut{end}")
"""


def take_two(made_once: Path, folder: Path, *words: str) -> tuple[list[list[str]], Path]:
    """Take two messages in; gives what was said and written of each, and the files after a cut.

    The power goes after the second; what was not on the disk with the first is lost.
    """
    file = Path(copied_file(made_once, folder).removeprefix("sqlite:///"))
    command = [sys.executable, "-c", TAKES_TWO_MESSAGES, str(file), *words]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True)
    said = [line.rsplit(maxsplit=2) for line in done.stdout.splitlines()]
    return said, Path(f"{file}.cut")


def cut_back(file: Path, written: list[str]) -> None:
    """Leave of a database and its write-ahead log what was on the disk at a moment."""
    for end, octets in zip(("", "-wal"), written, strict=True):
        with Path(f"{file}{end}").open("r+b") as cut:
            cut.truncate(int(octets))


def held_in(file: Path) -> tuple[int | None, int | None]:
    """How many crews and yards there are."""
    engine = open_engine(f"sqlite:///{file}")
    with reading(engine) as session:
        counted = [select(func.count()).select_from(table) for table in (CrewRow, YardRow)]
        found = session.scalar(counted[0]), session.scalar(counted[1])
    engine.dispose()
    return found


def test_with_a_disk_both_messages_are_confirmed(made_once: Path, tmp_path: Path) -> None:
    (first, second), file = take_two(made_once, tmp_path)

    assert (first[0], second[0]) == ("confirmed", "confirmed")
    assert held_in(file) == (1, 1)


def test_what_is_not_on_the_disk_is_not_confirmed(made_once: Path, tmp_path: Path) -> None:
    (first, second), _file = take_two(made_once, tmp_path, "no disk")

    assert (first[0], second[0]) == ("confirmed", "disk I/O error")


def test_after_a_power_cut_what_was_confirmed_is_there(made_once: Path, tmp_path: Path) -> None:
    (first, _second), file = take_two(made_once, tmp_path, "no disk")
    cut_back(file, first[1:])

    assert held_in(file) == (1, 0)
