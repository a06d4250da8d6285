"""A database file that is deleted or replaced while it is open is noticed before anything else."""

import shutil
from pathlib import Path

import pytest
from sqlalchemy import Engine, text
from sqlalchemy.exc import OperationalError

from deploy.standins.databases import copied_file
from scheduling.records.engine import fault_of_database, open_engine, reading, writing


@pytest.fixture
def file(made_once: Path, tmp_path: Path) -> Path:
    return Path(copied_file(made_once, tmp_path).removeprefix("sqlite:///"))


@pytest.fixture
def opened(file: Path) -> Engine:
    engine = open_engine(f"sqlite:///{file}")
    say(engine)
    return engine


def say(engine: Engine) -> None:
    with writing(engine) as session:
        session.execute(text("INSERT INTO crew (name) VALUES ('Bees')"))


def count(engine: Engine) -> int:
    with reading(engine) as session:
        return int(session.scalar(text("SELECT count(*) FROM crew")) or 0)


def test_after_it_was_deleted_nothing_is_written_or_read(opened: Engine, file: Path) -> None:
    file.unlink()
    for use in (say, count):
        with pytest.raises(OperationalError) as refused:
            use(opened)
        assert "deleted or replaced" in fault_of_database(refused.value)
    assert not file.exists()


def test_another_file_in_its_place_is_not_written_to(
    opened: Engine, file: Path, made_once: Path
) -> None:
    file.unlink()
    shutil.copy(made_once, file)
    with pytest.raises(OperationalError, match="deleted or replaced"):
        say(opened)
    assert file.read_bytes() == made_once.read_bytes()


def test_put_back_it_is_used_as_before(opened: Engine, file: Path) -> None:
    away = file.rename(file.with_suffix(".away"))
    with pytest.raises(OperationalError):
        say(opened)
    away.rename(file)
    say(opened)
    assert count(opened) == 2


def test_a_file_that_is_not_there_yet_is_made(tmp_path: Path) -> None:
    engine = open_engine(f"sqlite:///{tmp_path / 'new.sqlite'}")
    with writing(engine) as session:
        session.execute(text("CREATE TABLE hive (id INTEGER)"))
    assert (tmp_path / "new.sqlite").exists()
