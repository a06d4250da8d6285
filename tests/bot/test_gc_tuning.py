"""While a program loads, nobody looks for garbage; afterwards somebody does again."""

import gc

import pytest

from bot.gc_tuning import uncollected


class BrokenLoadError(Exception):
    """Loading failed."""


def test_within_the_block_nothing_is_collected() -> None:
    assert gc.isenabled()
    with uncollected():
        assert not gc.isenabled()
    assert gc.isenabled()


def test_a_load_that_fails_is_followed_by_collecting() -> None:
    with pytest.raises(BrokenLoadError), uncollected():
        raise BrokenLoadError
    assert gc.isenabled()


def test_who_collects_never_is_left_so() -> None:
    gc.disable()
    try:
        with uncollected():
            pass
        assert not gc.isenabled()
    finally:
        gc.enable()
