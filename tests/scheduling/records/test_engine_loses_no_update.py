"""Two writers at one database: each sees what the other wrote before it writes itself."""

import subprocess
import sys
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from contextlib import AbstractContextManager
from pathlib import Path

import pytest
from sqlalchemy import Engine, text
from sqlalchemy.exc import DBAPIError, InvalidRequestError
from sqlalchemy.orm import Session

from deploy.standins.databases import WITH_TABLES, copied_file, on_server
from deploy.standins.postgresql import Server
from scheduling.records.crews import add_crew, hold_crew
from scheduling.records.engine import open_engine, reading, writing

ROOT = Path(__file__).parents[3]

Block = Callable[[Engine], AbstractContextManager[Session]]

TURNS = 200

ADD_ONE_MANY_TIMES = """
import sys
from sqlalchemy import text
from scheduling.records.crews import hold_crew
from scheduling.records.engine import open_engine, writing
engine = open_engine(sys.argv[1])
for _ in range(int(sys.argv[2])):
    with writing(engine) as session:
        hold_crew(session, 1)
        beetles = session.scalar(text("SELECT beetles FROM tally"))
        session.execute(text("UPDATE tally SET beetles = :beetles"), {"beetles": beetles + 1})
engine.dispose()
"""


@pytest.fixture
def tally(engine: Engine) -> Engine:
    """A count that the crew keeps together."""
    with writing(engine) as session:
        assert add_crew(session, "Ann's bees").id == 1
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
            hold_crew(session, 1)
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
    with pytest.raises(DBAPIError, match=r"read-?only"), reading(tally) as session:
        session.execute(text("UPDATE tally SET beetles = 12"))
    with writing(tally) as session:
        session.execute(text("UPDATE tally SET beetles = 3"))
    assert beetles(tally) == 3


@pytest.mark.parametrize("block", [reading, writing])
def test_a_session_is_of_no_use_after_its_block(tally: Engine, block: Block) -> None:
    with block(tally) as session:
        session.execute(text("SELECT beetles FROM tally"))
    with pytest.raises(InvalidRequestError, match="closed"):
        session.execute(text("SELECT beetles FROM tally"))


def test_a_reader_sees_one_state_from_its_first_look_to_its_last(tally: Engine) -> None:
    with reading(tally) as session:
        first = session.scalar(text("SELECT beetles FROM tally"))
        with writing(tally) as other:
            other.execute(text("UPDATE tally SET beetles = 12"))
        assert session.scalar(text("SELECT beetles FROM tally")) == first == 0


def test_a_writer_waits_for_its_turn_no_longer_than_was_set(postgresql: Server) -> None:
    with on_server(postgresql, WITH_TABLES) as url:
        engine = open_engine(url)
        with reading(engine) as session:
            assert session.scalar(text("SHOW lock_timeout")) == "15s"
            assert session.scalar(text("SHOW idle_in_transaction_session_timeout")) == "5min"
        engine.dispose()


def test_a_connection_that_the_server_ended_is_made_anew(postgresql: Server) -> None:
    with on_server(postgresql, WITH_TABLES) as url:
        engine, other = open_engine(url), open_engine(url)
        with reading(engine) as session:
            ended = session.scalar(text("SELECT pg_backend_pid()"))
        with writing(other) as session:
            session.execute(text("SELECT pg_terminate_backend(:pid, 5000)"), {"pid": ended})
        with reading(engine) as session:
            assert session.scalar(text("SELECT pg_backend_pid()")) != ended
        engine.dispose()
        other.dispose()


def test_sqlite_is_set_up_as_measured_to_be_safe(made_once: Path, tmp_path: Path) -> None:
    engine = open_engine(copied_file(made_once, tmp_path))
    wanted = {"journal_mode": "wal", "busy_timeout": 15000, "synchronous": 2, "foreign_keys": 1}
    with reading(engine) as session:
        found = {name: session.scalar(text(f"PRAGMA {name}")) for name in wanted}
    engine.dispose()
    assert found == wanted


def test_an_engine_is_made_without_opening_anything(tmp_path: Path) -> None:
    open_engine(f"sqlite:///{tmp_path}/later.sqlite").dispose()
    assert not (tmp_path / "later.sqlite").exists()
