"""The running program looks for garbage once in some calendars, and what is garbage still goes."""

import gc
import weakref
from collections.abc import Iterator
from threading import Thread

import pytest
from sqlalchemy import Engine

from bot.gc_tuning import YOUNG_LOOKS, YOUNG_OBJECTS, collect_all, collect_rarely
from scheduling.records.engine import write_queue_of

LOADED = 50_000
"""Objects that a program with the tests' libraries has loaded at the least."""


@pytest.fixture(autouse=True)
def _as_before() -> Iterator[None]:
    threshold = gc.get_threshold()
    yield
    gc.set_threshold(*threshold)
    gc.unfreeze()


class _Ring:
    """Something that points at itself, so that only a look for garbage finds it."""

    def __init__(self) -> None:
        self.itself = self


def test_what_was_loaded_is_looked_at_no_more() -> None:
    collect_rarely()
    assert gc.get_freeze_count() > LOADED
    assert gc.isenabled()


def test_a_ring_made_later_goes_when_enough_was_made_after_it() -> None:
    collect_rarely()
    ring = weakref.ref(_Ring())
    assert ring() is not None
    kept = [[number] for number in range(2 * YOUNG_OBJECTS)]
    assert ring() is None
    assert len(kept) == 2 * YOUNG_OBJECTS


def test_old_objects_are_looked_at_only_when_that_is_asked_for(engine: Engine) -> None:
    collect_rarely()
    old = _Ring()
    ring, looks = weakref.ref(old), gc.get_stats()[2]["collections"]
    kept = [[number] for number in range(3 * YOUNG_LOOKS * YOUNG_OBJECTS)]
    del old
    kept += [[number] for number in range(10 * YOUNG_LOOKS * YOUNG_OBJECTS)]
    assert ring() is not None
    assert gc.get_stats()[2]["collections"] == looks

    collect_all(engine)
    assert ring() is None


def test_old_objects_are_not_looked_at_while_somebody_writes(engine: Engine) -> None:
    with write_queue_of(engine).turn():
        looking = Thread(target=collect_all, args=(engine,))
        before = gc.get_stats()[2]["collections"]
        looking.start()
        looking.join(0.2)
        assert gc.get_stats()[2]["collections"] == before
    looking.join()
    assert gc.get_stats()[2]["collections"] > before
