"""Writers on SQLite of one process: none is overtaken for long, and none is left behind."""

import time
from pathlib import Path
from threading import Event, Thread

import pytest
from sqlalchemy import text

from deploy.standins.waiting import WAIT_AT_MOST_SECONDS
from scheduling.records.engine import WriteQueue, open_engine, writing


def test_who_writes_without_a_pause_lets_another_one_in(tmp_path: Path) -> None:
    engine = open_engine(f"sqlite:///{tmp_path / 'bees.sqlite'}")
    written: list[str] = []
    begun, let_in = Event(), Event()

    def write_on() -> None:
        while not let_in.is_set() and len(written) < 100:
            with writing(engine) as session:
                session.execute(text("SELECT 1"))
                written.append("busy")
                begun.set()
                time.sleep(0.02)

    busy = Thread(target=write_on)
    busy.start()
    begun.wait(WAIT_AT_MOST_SECONDS)
    before = len(written)
    with writing(engine) as session:
        session.execute(text("SELECT 1"))
        overtaken_by = len(written) - before
    let_in.set()
    busy.join()
    engine.dispose()

    assert overtaken_by <= 2


def test_who_came_first_writes_first() -> None:
    writers = WriteQueue()
    order: list[int] = []

    def write(number: int) -> None:
        with writers.turn():
            order.append(number)

    with writers.turn():
        threads = [Thread(target=write, args=(number,)) for number in range(5)]
        for thread in threads:
            thread.start()
            time.sleep(0.02)
    for thread in threads:
        thread.join()

    assert order == [0, 1, 2, 3, 4]


def test_after_an_error_the_next_one_writes() -> None:
    writers = WriteQueue()
    with pytest.raises(ZeroDivisionError), writers.turn():
        _ = 1 / 0
    with writers.turn():
        pass


def test_a_thread_that_would_wait_for_itself_is_told(tmp_path: Path) -> None:
    engine = open_engine(f"sqlite:///{tmp_path / 'bees.sqlite'}")
    with writing(engine), pytest.raises(RuntimeError, match="within another"), writing(engine):
        pass
    with writing(engine) as session:
        assert session.scalar(text("SELECT 1")) == 1
    engine.dispose()
