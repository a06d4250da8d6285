"""The database and the files beside it can be read by their owner only, whatever the umask."""

import os
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

import bot.all_tables  # noqa: F401 - all of them are copied
from scheduling.records.backup_file import back_up, restore
from scheduling.records.crews import add_crew
from scheduling.records.engine import open_engine, writing
from scheduling.records.migrate import migrate

ENDS = ("", "-wal", "-shm")


@pytest.fixture(autouse=True)
def _a_machine_where_everybody_reads_everything() -> Iterator[None]:
    before = os.umask(0)
    yield
    os.umask(before)


def rights(file: Path, *ends: str) -> list[str]:
    return [oct(Path(f"{file}{end}").stat().st_mode & 0o777) for end in ends]


def test_a_database_that_is_made(tmp_path: Path) -> None:
    engine = open_engine(f"sqlite:///{tmp_path}/bees 100%.sqlite")
    migrate(engine)
    with writing(engine) as session:
        add_crew(session, "Ann's bees")
    assert rights(tmp_path / "bees 100%.sqlite", *ENDS) == ["0o600"] * 3
    engine.dispose()


def test_a_database_that_was_made_before_everybodys_eyes(tmp_path: Path, made_once: Path) -> None:
    file = tmp_path / "bees.sqlite"
    file.write_bytes(made_once.read_bytes())
    assert rights(file, "") == ["0o666"]
    engine = open_engine(f"sqlite:///{file}")
    with writing(engine) as session:
        add_crew(session, "Ann's bees")
    assert rights(file, *ENDS) == ["0o600"] * 3
    engine.dispose()


def test_a_backup_and_what_is_restored_from_it(tmp_path: Path, made_once: Path) -> None:
    engine = open_engine(f"sqlite:///{made_once}")
    back_up(engine, tmp_path / "backup")
    engine.dispose()
    target = open_engine(f"sqlite:///{tmp_path}/restored.sqlite")
    migrate(target)
    restore(target, tmp_path / "backup", datetime(2027, 5, 12, 12, tzinfo=UTC))
    assert rights(tmp_path / "backup", "") == ["0o600"]
    assert rights(tmp_path / "restored.sqlite", "") == ["0o600"]
    target.dispose()
