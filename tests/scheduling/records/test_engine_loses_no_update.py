"""Two writers at one file: each sees what the other wrote before it writes itself."""

import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from sqlalchemy import Engine, text
from sqlalchemy.exc import OperationalError

from scheduling.records.engine import open_engine, reading, writing

ROOT = Path(__file__).parents[3]

TURNS = 200

ADD_ONE_MANY_TIMES = """
import sys
from sqlalchemy import text
from scheduling.records.engine import open_engine, writing
engine = open_engine(sys.argv[1])
for _ in range(int(sys.argv[2])):
    with writing(engine) as session:
        beetles = session.scalar(text("SELECT beetles FROM tally"))
        session.execute(text("UPDATE tally SET beetles = :beetles"), {"beetles": beetles + 1})
engine.dispose()
"""


@pytest.fixture
def tally(engine: Engine) -> Engine:
    with writing(engine) as session:
        session.execute(text("CREATE TABLE tally (beetles INTEGER)"))
        session.execute(text("INSERT INTO tally VALUES (0)"))
    return engine


def beetles(engine: Engine) -> int:
    with reading(engine) as session:
        return int(session.execute(text("SELECT beetles FROM tally")).scalar_one())


def test_two_processes_that_each_add_one_200_times_make_400(tally: Engine) -> None:
    command = [sys.executable, "-c", ADD_ONE_MANY_TIMES, str(tally.url), str(TURNS)]
    both = [subprocess.Popen(command, cwd=ROOT) for _ in range(2)]
    assert [process.wait(timeout=120) for process in both] == [0, 0]
    assert beetles(tally) == 2 * TURNS


def test_two_threads_that_each_add_one_200_times_make_400(tally: Engine) -> None:
    def add_one(_turn: int) -> None:
        with writing(tally) as session:
            seen = session.execute(text("SELECT beetles FROM tally")).scalar_one()
            session.execute(text("UPDATE tally SET beetles = :n"), {"n": seen + 1})

    with ThreadPoolExecutor(2) as threads:
        list(threads.map(add_one, range(2 * TURNS)))
    assert beetles(tally) == 2 * TURNS


def test_a_reader_sees_the_last_kept_state_while_a_writer_is_busy(tally: Engine) -> None:
    with writing(tally) as session:
        session.execute(text("UPDATE tally SET beetles = 12"))
        assert beetles(tally) == 0
    assert beetles(tally) == 12


def test_a_block_that_raises_writes_nothing(tally: Engine) -> None:
    def stumble() -> None:
        with writing(tally) as session:
            session.execute(text("UPDATE tally SET beetles = 12"))
            raise KeyError

    with pytest.raises(KeyError):
        stumble()
    assert beetles(tally) == 0


def test_a_reading_session_cannot_write(tally: Engine) -> None:
    with pytest.raises(OperationalError, match="readonly"), reading(tally) as session:
        session.execute(text("UPDATE tally SET beetles = 12"))
    with writing(tally) as session:
        session.execute(text("UPDATE tally SET beetles = 3"))
    assert beetles(tally) == 3


def test_sqlite_is_set_up_as_measured_to_be_safe(engine: Engine) -> None:
    wanted = {"journal_mode": "wal", "busy_timeout": 15000, "synchronous": 1, "foreign_keys": 1}
    with reading(engine) as session:
        found = {name: session.scalar(text(f"PRAGMA {name}")) for name in wanted}
    assert found == wanted


def test_an_engine_is_made_without_opening_anything(tmp_path: Path) -> None:
    open_engine(f"sqlite:///{tmp_path}/later.sqlite").dispose()
    assert not (tmp_path / "later.sqlite").exists()
