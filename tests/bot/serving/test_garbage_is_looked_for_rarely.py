"""The running program looks for garbage once in some calendars, and what is garbage still goes."""

import gc
import weakref
from collections.abc import Iterator

import pytest

from bot.gc_tuning import NEW_OBJECTS, collect_rarely

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
    kept = [[number] for number in range(2 * NEW_OBJECTS)]
    assert ring() is None
    assert len(kept) == 2 * NEW_OBJECTS
